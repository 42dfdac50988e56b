import { execFile } from 'node:child_process';
import { readdir, readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import sharp from 'sharp';
import { openInspector } from '../inspect/inspect.node.ts';

/** Sizes of a small, a usual and a large phone photo. */
const SIZES = [
  { label: '1 MP', width: 1200, height: 900 },
  { label: '12 MP', width: 4000, height: 3000 },
  { label: '48 MP', width: 8000, height: 6000 },
] as const;
const REPEATS = 5;
const SAMPLES = new URL('../../sample-images/', import.meta.url);

interface Result {
  readonly stages: Readonly<Record<string, number>>;
  readonly totalMs: number;
  readonly peakMb: number;
}

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
};

async function samplePhoto(width: number, height: number): Promise<Uint8Array> {
  const name = (await readdir(SAMPLES)).filter((f) => /\.(jpe?g|png|webp)$/.test(f)).sort()[0];
  if (!name) throw new Error('sample-images holds no picture');
  return sharp(await readFile(new URL(name, SAMPLES)))
    .resize(width, height, { fit: 'cover' })
    .jpeg({ quality: 92 })
    .toBuffer();
}

/** Reads one size several times in this process; the first reading warms up and does not count. */
async function measure(width: number, height: number): Promise<Result> {
  const bytes = await samplePhoto(width, height);
  const engine = await openInspector();
  const runs: Readonly<Record<string, number>>[] = [];
  const totals: number[] = [];
  for (let k = 0; k <= REPEATS; k++) {
    const { findings } = await engine.inspect(bytes, 'sample.jpg');
    if (k === 0) continue;
    runs.push(findings.stages);
    totals.push(findings.elapsedMs);
  }
  engine.dispose();
  const stages = Object.fromEntries(
    Object.keys(runs[0] ?? {}).map((stage) => [stage, median(runs.map((r) => r[stage] ?? 0))]),
  );
  return { stages, totalMs: median(totals), peakMb: process.resourceUsage().maxRSS / 1024 };
}

/** Each size has a process of its own, so that its peak of memory is not another's. */
async function measureApart(index: number): Promise<Result> {
  const { stdout } = await promisify(execFile)(process.execPath, [
    ...process.execArgv,
    fileURLToPath(import.meta.url),
    '--size',
    String(index),
  ]);
  return JSON.parse(stdout) as Result;
}

const asked = process.argv.indexOf('--size');
const size = asked > 0 ? SIZES[Number(process.argv[asked + 1])] : undefined;
if (size) {
  process.stdout.write(JSON.stringify(await measure(size.width, size.height)));
} else {
  console.log(`Milliseconds per stage, median of ${REPEATS} readings after one to warm up; peak resident memory.`);
  const rows: Record<string, Record<string, number>> = {};
  for (const [index, { label }] of SIZES.entries()) {
    const { stages, totalMs, peakMb } = await measureApart(index);
    const bare = (stages.decode ?? 0) + (stages.segment ?? 0);
    const rounded = Object.fromEntries(Object.entries(stages).map(([stage, ms]) => [stage, Math.round(ms)]));
    rows[label] = {
      ...rounded,
      total: Math.round(totalMs),
      'total / (decode + segment)': Math.round((100 * totalMs) / bare) / 100,
      'peak MB': Math.round(peakMb),
    };
  }
  console.table(rows);
}
