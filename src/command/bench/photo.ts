import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import type { Findings } from '../../flow';
import { openInspector } from '../../inspect/inspect.node.ts';
import { openSegmenter } from '../../inspect/segmenter.node.ts';
import { decodePhoto } from '../../photo/decode.node.ts';
import { readNaively } from './naive';
import { median } from './statistics';

/** Sizes of a small, a usual and a large phone photo. */
export const SIZES = [
  { label: '1 MP', megapixels: 1.08, width: 1200, height: 900 },
  { label: '12 MP', megapixels: 12, width: 4000, height: 3000 },
  { label: '48 MP', megapixels: 48, width: 8000, height: 6000 },
] as const;
export type Size = (typeof SIZES)[number];

const REPEATS = 5;
const SCENE = new URL('../../../sample-images/gutter-mixed-480-208.jpg', import.meta.url);

export interface PhotoBench {
  /** Median milliseconds of each stage. */
  readonly stages: Readonly<Record<string, number>>;
  readonly totalMs: number;
  /** The same as processor time of all threads, which other programs on the machine change little. */
  readonly totalCpuMs: number;
  /** Median of decoding alone and of segmenting alone, in the same run. */
  readonly bareMs: number;
  readonly bareCpuMs: number;
  readonly naiveMs: number;
  readonly conductors: number;
  readonly peakMb: number;
}

export async function scenePhoto({ width, height }: Pick<Size, 'width' | 'height'>): Promise<Uint8Array> {
  return sharp(await readFile(SCENE))
    .resize(width, height, { fit: 'cover' })
    .jpeg({ quality: 92 })
    .toBuffer();
}

/** Reads one size several times in this process, each time beside its bare parts; the first round warms up. */
export async function benchPhoto(size: Size): Promise<PhotoBench> {
  const bytes = await scenePhoto(size);
  const segmenter = await openSegmenter();
  const engine = await openInspector(segmenter);
  const stages: Readonly<Record<string, number>>[] = [];
  const totals: number[] = [];
  const bare: number[] = [];
  const cpu = { total: [] as number[], bare: [] as number[] };
  let conductors = 0;
  const clock = async (work: () => Promise<unknown>): Promise<number> => {
    const begun = performance.now();
    await work();
    return performance.now() - begun;
  };
  const processor = async (work: () => Promise<unknown>): Promise<number> => {
    const before = process.cpuUsage();
    await work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  };
  for (let k = 0; k <= REPEATS; k++) {
    let read: Findings | undefined;
    const totalCpu = await processor(async () => {
      read = (await engine.inspect(bytes, 'scene.jpg')).findings;
    });
    if (!read) continue;
    const findings = read;
    conductors = findings.conductors.length;
    let bareMs = 0;
    const bareCpu = await processor(async () => {
      bareMs = await clock(async () => {
        const { raster } = await decodePhoto(bytes, 'scene.jpg');
        await segmenter.segment(raster);
      });
    });
    if (k === 0) continue;
    cpu.total.push(totalCpu);
    cpu.bare.push(bareCpu);
    stages.push(findings.stages);
    totals.push(findings.elapsedMs);
    bare.push(bareMs);
  }
  // The peak is the program's own: the naive way is measured after it was taken.
  const peakMb = process.resourceUsage().maxRSS / 1024;
  const naive: number[] = [];
  for (let k = 0; k < REPEATS; k++) naive.push(await clock(() => readNaively(bytes)));
  engine.dispose();
  const names = Object.keys(stages[0] ?? {});
  return {
    stages: Object.fromEntries(names.map((name) => [name, median(stages.map((s) => s[name] ?? 0))])),
    totalMs: median(totals),
    totalCpuMs: median(cpu.total),
    bareMs: median(bare),
    bareCpuMs: median(cpu.bare),
    naiveMs: median(naive),
    conductors,
    peakMb,
  };
}
