import { execFile } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { parseArgs, promisify } from 'node:util';
import { bulk } from './bulk';
import { benchEngine, type EngineBench } from './engine';
import { naiveScores } from './naive-scores';
import { benchPhoto, type PhotoBench, SIZES } from './photo';
import { growthPlot } from './plot';
import { fitPower } from './statistics';

/**
 * npm run bench -- [--plot FILE.svg] [--photos INDEX.json]
 * Everything in one run, medians of five, each size in a process of its own so that its peak of memory is not
 * another's. Compare ratios: milliseconds are those of the machine and of what else runs on it.
 */
const { values } = parseArgs({
  options: { plot: { type: 'string' }, photos: { type: 'string' }, part: { type: 'string' } },
});
const BULK_SECONDS = 20;

/** A part of the bench in a process of its own. */
async function apart<T>(part: string): Promise<T> {
  const { stdout } = await promisify(execFile)(process.execPath, [
    ...process.execArgv,
    fileURLToPath(import.meta.url),
    '--part',
    part,
  ]);
  return JSON.parse(stdout) as T;
}

async function runPart(part: string): Promise<unknown> {
  if (part === 'engine') return benchEngine();
  if (part === 'bulk') return bulk(BULK_SECONDS);
  const size = SIZES.find((s) => s.label === part);
  if (!size) throw new Error(`no part ${part}`);
  return benchPhoto(size);
}

const round = (value: number, digits = 0): number => Math.round(value * 10 ** digits) / 10 ** digits;

if (values.part) {
  process.stdout.write(JSON.stringify(await runPart(values.part)));
} else {
  const photos: (PhotoBench & { readonly label: string; readonly megapixels: number })[] = [];
  for (const { label, megapixels } of SIZES) photos.push({ label, megapixels, ...(await apart<PhotoBench>(label)) });
  console.log('One photo to its phase map, milliseconds (medians of 5)');
  console.table(
    Object.fromEntries(
      photos.map((p) => [
        p.label,
        {
          ...Object.fromEntries(Object.entries(p.stages).map(([stage, ms]) => [stage, round(ms)])),
          total: round(p.totalMs),
          'decode + segment': round(p.bareMs),
          ratio: round(p.totalMs / p.bareMs, 2),
          'processor ms': round(p.totalCpuMs),
          'ratio of processor time': round(p.totalCpuMs / p.bareCpuMs, 2),
          'ms a conductor': round((p.totalMs - p.bareMs) / Math.max(1, p.conductors), 1),
          naive: round(p.naiveMs),
          'peak MB': round(p.peakMb),
        },
      ]),
    ),
  );
  const engine = await apart<EngineBench[]>('engine');
  console.log('From named conductors to map and verdict, milliseconds (medians of 5)');
  console.table(engine.map((e) => ({ ...e, identifyMs: round(e.identifyMs, 1), judgeMs: round(e.judgeMs, 1) })));
  const pixels = photos.map((p) => [p.megapixels, p.totalMs] as const);
  const conductors = engine.map((e) => [e.conductors, e.identifyMs] as const);
  const series = [
    { name: 'Photo', unit: 'megapixels', points: pixels, fit: fitPower(pixels) },
    { name: 'Map', unit: 'conductors', points: conductors, fit: fitPower(conductors) },
  ];
  for (const { name, unit, fit } of series) console.log(`${name}: time grows as ${unit} ^ ${fit.exponent.toFixed(2)}`);
  if (values.plot) await writeFile(values.plot, growthPlot(series));
  const one = await apart<number>('bulk');
  const two = await Promise.all([apart<number>('bulk'), apart<number>('bulk')]);
  console.log(`12-megapixel photos a minute: one process ${round(one, 1)}, two ${round(two[0] + two[1], 1)}`);
  if (values.photos) console.log('Naive way on the photos of the index', await naiveScores(values.photos));
}
