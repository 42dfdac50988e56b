import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { openInspector } from '../inspect/inspect.node.ts';
import { createClassicalSegmenter } from '../vision';
import { runInspect } from './run-inspect';

/**
 * Measures the program on labelled photographs that are no part of the project.
 * Usage: npm run measure -- [FOLDER] [--wrong] [--classical]
 * FOLDER (default ../shared) holds real-photos/index.json, real-instances/index.json and the scorers in eval/.
 * --wrong lists every wrong answer; --classical measures the segmenter without weights instead of the network.
 */
const run = promisify(execFile);
const words = process.argv.slice(2);
const classical = words.includes('--classical');
const flags = words.filter((word) => word.startsWith('--') && word !== '--classical');
const folder = words.find((word) => !word.startsWith('--')) ?? '../shared';
const open = () => openInspector(classical ? createClassicalSegmenter() : undefined);
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
    const code = await runInspect(['--json', '--points', index], open, {
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
