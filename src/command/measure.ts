import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { openInspector } from '../inspect/inspect.node.ts';
import { runInspect } from './run-inspect';

/**
 * Measures the program on labelled photographs that are no part of the project.
 * Usage: npm run measure -- [FOLDER] [--wrong]
 * FOLDER (default ../shared) holds real-photos/index.json, real-instances/index.json and the scorers in eval/.
 */
const run = promisify(execFile);
const flags = process.argv.slice(2).filter((word) => word.startsWith('--'));
const folder = process.argv.slice(2).find((word) => !word.startsWith('--')) ?? '../shared';
const SETS = [
  { set: 'real-photos', scorer: 'score.mjs', flags: ['--by', 'scene', ...flags] },
  { set: 'real-instances', scorer: 'score-instances.mjs', flags: [] },
] as const;

const scratch = await mkdtemp(join(tmpdir(), 'hueproof-'));
let failed = false;
try {
  for (const { set, scorer, flags } of SETS) {
    const index = join(folder, set, 'index.json');
    const lines: string[] = [];
    const code = await runInspect(['--json', '--points', index], openInspector, {
      out: (text) => lines.push(text),
      err: (text) => process.stderr.write(text),
    });
    if (code === 2) throw new Error(`${index} cannot be read`);
    failed ||= code !== 0;
    const findings = join(scratch, `${set}.jsonl`);
    await writeFile(findings, lines.join(''));
    const { stdout } = await run(process.execPath, [join(folder, 'eval', scorer), index, findings, ...flags]);
    console.log(`## ${set}\n\n${stdout}`);
  }
} finally {
  await rm(scratch, { recursive: true, force: true });
}
process.exitCode = failed ? 1 : 0;
