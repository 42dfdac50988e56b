import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { type Findings, message, type Point, Problem } from '../flow';
import { say } from '../words';
import { parseInspectArguments } from './arguments';
import { jsonLine, type ProbeAnswer, problemLine } from './json-line';
import { listPhotos, type PhotoTask } from './photo-list';
import { table } from './table';

/** What the command needs of the reading engine. */
export interface Engine {
  inspect(
    bytes: Uint8Array,
    name: string,
    request: { readonly at?: readonly Point[] },
  ): Promise<{ readonly findings: Findings; readonly probes: readonly ProbeAnswer[] }>;
  dispose(): void;
}

export interface Outlets {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

const asProblem = (error: unknown): Problem =>
  error instanceof Problem ? error : new Problem('engine failed', undefined, error);

async function readBytes(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    const why = (error as { code?: string }).code ?? 'unknown';
    throw new Problem('bad argument', { detail: 'command.cannot-open', why }, error);
  }
}

/** The catalogue fills one level of blanks; a bad argument's detail is itself a sentence with blanks. */
function explain(problem: Problem): string {
  const detail = problem.what.values?.detail;
  if (problem.kind !== 'bad argument' || typeof detail !== 'string') return `${say(problem.what)} ${say(problem.todo)}`;
  return say(message(detail, problem.what.values));
}

async function readOne(task: PhotoTask, engine: Engine, json: boolean, { out, err }: Outlets): Promise<void> {
  const name = basename(task.path);
  const { findings, probes } = await engine.inspect(await readBytes(task.path), name, { at: task.at });
  const { width, height } = findings.photo;
  for (const [x, y] of task.at)
    if (x < 0 || y < 0 || x >= width || y >= height)
      err(`${say(message('command.outside', { name, x, y, width, height }))}\n`);
  out(json ? `${jsonLine(findings, task.probed ? probes : undefined)}\n` : `${table(findings, probes)}\n`);
}

/**
 * The inspect command. Results go to `out` one photo at a time in the order given, everything else to `err`.
 * A photo that cannot be read is told on `err` (and as a line of its own with --json) and never stops the rest.
 * @returns the exit code: 0, 1 when a photo failed, 2 for wrong arguments.
 */
export async function runInspect(
  argv: readonly string[],
  openEngine: () => Promise<Engine>,
  { out, err }: Outlets,
): Promise<0 | 1 | 2> {
  let json: boolean;
  let tasks: PhotoTask[];
  try {
    const args = parseInspectArguments(argv);
    if (args.help) {
      out(`${say(message('command.inspect.help'))}\n`);
      return 0;
    }
    json = args.json;
    tasks = await listPhotos(args);
  } catch (error) {
    err(`${explain(asProblem(error))}\n${say(message('command.inspect.help'))}\n`);
    return 2;
  }
  let engine = await openEngine();
  let failed = 0;
  try {
    for (const [k, task] of tasks.entries()) {
      const name = basename(task.path);
      if (tasks.length > 1) err(`${say(message('command.reading', { index: k + 1, count: tasks.length, name }))}\n`);
      try {
        await readOne(task, engine, json, { out, err });
      } catch (error) {
        const problem = asProblem(error);
        failed += 1;
        err(`${name}: ${explain(problem)}\n`);
        if (json) out(`${problemLine(name, problem)}\n`);
        if (problem.kind === 'engine failed') {
          err(`${String(problem.cause)}\n`);
          // A fault may leave the engine's memory in any state: the next photo gets a fresh one.
          engine.dispose();
          engine = await openEngine();
        }
      }
    }
  } finally {
    engine.dispose();
  }
  if (failed > 0) err(`${say(message('command.failed', { failed, count: tasks.length }))}\n`);
  return failed > 0 ? 1 : 0;
}
