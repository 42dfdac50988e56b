/*
 * Time, memory and sizes of a whole turnover on the command line:
 *
 *     npx tsx test/command/bulk/measure.ts FOLDER [PHOTOS, 300] [more arguments of the turnover command ...]
 *
 * FOLDER gets photos, schedule and results; what it holds already is not read again. Linux only: resident memory is
 * what /proc says, sampled twice a second, the parent and its readers apart.
 */
import { execFileSync, spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { appendFile } from 'node:fs/promises';
import { join } from 'node:path';
import { makeTurnover } from './make-photos';

const [folder = '', count = '300', ...more] = process.argv.slice(2);
if (folder === '') throw new Error('which folder?');
if (!existsSync(join(folder, 'schedule.csv'))) console.log(`${await makeTurnover(folder, Number(count))} terminations`);

const MEBI = 1024;

/** Resident kB of a process; 0 when it is gone. */
function resident(pid: number): number {
  try {
    return Number(/VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0);
  } catch {
    return 0;
  }
}

/** Process ids below a process. */
function below(pid: number): number[] {
  try {
    const own = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean).map(Number);
    return own.flatMap((child) => [child, ...below(child)]);
  } catch {
    return [];
  }
}

const root = new URL('../../../', import.meta.url);
const args = ['--photos', join(folder, 'photos'), '--schedule', join(folder, 'schedule.csv')];
const started = performance.now();
const child = spawn(
  process.execPath,
  [
    '--import',
    'tsx',
    'src/command/turnover.ts',
    ...args,
    '--out',
    join(folder, 'out'),
    '--by',
    'Invented Tester',
    ...more,
  ],
  { cwd: root, stdio: ['ignore', 'inherit', 'pipe'] },
);
const seconds = (): number => (performance.now() - started) / 1000;
child.stderr.on('data', (text: Buffer) => {
  process.stderr.write(`${seconds().toFixed(1).padStart(7)} s  ${text.toString()}`);
});
const samples: { readonly at: number; readonly parent: number; readonly readers: readonly number[] }[] = [];
const timer = setInterval(() => {
  const readers = below(child.pid ?? 0).map(resident);
  samples.push({ at: seconds(), parent: resident(child.pid ?? 0), readers });
}, 500);
const code = await new Promise<number | null>((resolve) => child.on('exit', resolve));
clearInterval(timer);
const whole = seconds();

await appendFile(
  join(folder, 'memory.csv'),
  samples.map((s) => `${s.at.toFixed(1)},${s.parent},${s.readers.join(' ')}\n`).join(''),
);
const lastRead = samples.findLast((s) => s.readers.some((kB) => kB > 50 * MEBI))?.at ?? 0;
const mib = (kB: number): string => (kB / MEBI).toFixed(0);
console.log(`exit ${code}, ${whole.toFixed(1)} s; last reader gone after ${lastRead.toFixed(1)} s`);
for (let k = 0; k < 10; k++) {
  const some = samples.filter((s) => s.at >= (whole * k) / 10 && s.at < (whole * (k + 1)) / 10);
  const most = Math.max(0, ...some.map((s) => s.parent));
  const reader = Math.max(0, ...some.flatMap((s) => s.readers));
  console.log(
    `${((whole * k) / 10).toFixed(0).padStart(5)} s on: parent at most ${mib(most)} MiB, a reader ${mib(reader)} MiB`,
  );
}
for (const name of readdirSync(join(folder, 'out'))) {
  const entry = statSync(join(folder, 'out', name));
  if (entry.isFile()) console.log(`${name}: ${(entry.size / 2 ** 20).toFixed(2)} MiB`);
}
const before = performance.now();
const verified = execFileSync(
  process.execPath,
  ['--import', 'tsx', 'src/command/verify.ts', join(folder, 'out', 'record.zip')],
  { cwd: root },
);
console.log(`${verified.toString().trim()} (${((performance.now() - before) / 1000).toFixed(1)} s)`);
