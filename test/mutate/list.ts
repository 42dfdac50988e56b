import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Mutant } from '@stryker-mutator/api/core';
import { type File, Instrumenter } from '@stryker-mutator/instrumenter';

const quiet = (): void => undefined;
const no = (): boolean => false;
const LOGGER: ConstructorParameters<typeof Instrumenter>[0] = {
  isTraceEnabled: no,
  isDebugEnabled: no,
  isInfoEnabled: no,
  isWarnEnabled: no,
  isErrorEnabled: no,
  isFatalEnabled: no,
  trace: quiet,
  debug: quiet,
  info: quiet,
  warn: quiet,
  error: quiet,
  fatal: quiet,
};

/** Every small fault that could be built into the files of a folder whose path has a text in it. */
export async function mutantsOf(folder: string, text: string): Promise<readonly Mutant[]> {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((name) => name.endsWith('.ts') && name.includes(text))
    .map((name): File => ({ name: resolve(name), mutate: true, content: readFileSync(name, 'utf8') }));
  const options = { plugins: null, excludedMutations: [], ignorers: [] };
  return (await new Instrumenter(LOGGER).instrument(files, options)).mutants.filter((m) => m.status !== 'Ignored');
}

/** The place of a mutant as Stryker's option `mutate` takes it: lines from 1, columns from 0. */
export function rangeOf({ fileName, location: { start, end } }: Pick<Mutant, 'fileName' | 'location'>): string {
  const file = fileName.slice(fileName.lastIndexOf('/src/') + 1);
  return `${file}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
}
