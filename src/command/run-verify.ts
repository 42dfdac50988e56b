import { constants, openAsBlob } from 'node:fs';
import { access } from 'node:fs/promises';
import { basename } from 'node:path';
import { message, Problem } from '../flow';
import { loadArchive } from '../record';
import { say } from '../words';
import type { Outlets } from './run-inspect';
import { asProblem, explain } from './say-problem';

/** Opens a file for reading in pieces. @throws Problem 'bad argument' when it cannot be opened. */
export async function openFile(path: string): Promise<Blob> {
  try {
    // openAsBlob says of a missing file only that its argument is invalid.
    await access(path, constants.R_OK);
    return await openAsBlob(path);
  } catch (error) {
    const why = (error as { code?: string }).code ?? 'unknown';
    throw new Problem('bad argument', { detail: 'command.cannot-open', why }, error);
  }
}

/** The verify command: what changed in each archive. @returns 0 as written, 1 changed or unreadable, 2 arguments. */
export async function runVerify(argv: readonly string[], { out, err }: Outlets): Promise<0 | 1 | 2> {
  const files = argv.filter((word) => !word.startsWith('-'));
  if (files.length === 0 || files.length < argv.length) {
    err(`${say(message('command.verify.help'))}\n`);
    return argv.includes('--help') ? 0 : 2;
  }
  const { openZip, verifyArchive } = await loadArchive();
  let good = true;
  for (const path of files) {
    const name = basename(path);
    try {
      const zip = await openZip(await openFile(path));
      const { faults, files: count, parts } = await verifyArchive(zip);
      await zip.close();
      if (faults.length === 0 && parts) {
        const values = { name, files: count, entries: parts.log.length, head: parts.log.at(-1)?.hash ?? '' };
        out(`${say(message('command.verify.good', values))}\n`);
        continue;
      }
      good = false;
      out(`${say(message('command.verify.bad', { name }))}\n${faults.map((f) => `  ${say(f)}\n`).join('')}`);
    } catch (error) {
      good = false;
      err(`${name}: ${explain(asProblem(error))}\n`);
    }
  }
  return good ? 0 : 1;
}
