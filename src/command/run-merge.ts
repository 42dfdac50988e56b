import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { rename } from 'node:fs/promises';
import { Writable } from 'node:stream';
import { parseArgs } from 'node:util';
import { message, Problem } from '../flow';
import { loadArchive } from '../record';
import { say } from '../words';
import type { Outlets } from './run-inspect';
import { openFile } from './run-verify';
import { asProblem, explain } from './say-problem';

function parse(argv: readonly string[]): { readonly out: string; readonly parts: readonly string[] } | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: { out: { type: 'string' }, help: { type: 'boolean' } },
    });
    return values.out === undefined || positionals.length === 0 ? null : { out: values.out, parts: positionals };
  } catch {
    // An option that is not known: the help says which are.
    return null;
  }
}

/** The merge command: one archive of several, each proved first. @returns 0, 1 (an archive is bad), 2 (arguments). */
export async function runMerge(argv: readonly string[], { out, err }: Outlets): Promise<0 | 1 | 2> {
  const args = parse(argv);
  if (!args) {
    err(`${say(message('command.merge.help'))}\n`);
    return 2;
  }
  const { mergeArchives, openZip, readArchive, verifyArchive, writeArchive } = await loadArchive();
  try {
    const archives = [];
    for (const path of args.parts) archives.push(await readArchive(await openFile(path)));
    const now = new Date().toISOString();
    const { source, photos } = await mergeArchives(archives, randomUUID(), now);
    const sink = Writable.toWeb(createWriteStream(`${args.out}.new`)) as WritableStream<Uint8Array<ArrayBuffer>>;
    await writeArchive(source, sink, now);
    for (const archive of archives) await archive.close();
    const zip = await openZip(await openFile(`${args.out}.new`));
    const { faults } = await verifyArchive(zip);
    await zip.close();
    if (faults.length > 0) throw new Problem('save not verified');
    await rename(`${args.out}.new`, args.out);
    out(`${say(message('command.merge.done', { out: args.out, photos, parts: archives.length }))}\n`);
    return 0;
  } catch (error) {
    err(`${explain(asProblem(error))}\n`);
    return 1;
  }
}
