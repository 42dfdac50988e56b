/**
 * How the network does in the product on labelled photographs, and what it costs against one bare run at 512 px:
 *   npx tsx test/vision/network/measure.ts ../shared/real-photos [every-nth] [points.json]
 * points.json gets the uncalibrated log-odds at every labelled point, for models/training/calibrate.py.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { Graph } from '../../../src/vision/network/graph';
import { readManifest } from '../../../src/vision/network/manifest';
import { loadNetworkInNode, readNetworkFiles } from '../../../src/vision/network/network.node.js';
import { testPattern } from '../../../src/vision/network/self-test';

interface Labelled {
  readonly file: string;
  readonly scene: string;
  readonly source: string;
  readonly points: readonly { x: number; y: number }[];
  readonly background: readonly { x: number; y: number }[];
}

const [folder, nth = '1', pointsPath] = process.argv.slice(2);
if (!folder) throw new Error('usage: measure.ts FOLDER [every-nth]');
const { images } = JSON.parse(readFileSync(join(folder, 'index.json'), 'utf8')) as { images: Labelled[] };
const network = await loadNetworkInNode();
const files = await readNetworkFiles();
const graph = new Graph(readManifest(files.json), files.bytes);
const bare = testPattern(512, 512);

/** The network as exported, once. */
function bareRun(): number {
  const start = cpuMilliseconds();
  const { full, half } = graph.run(bare);
  full.dataSync();
  half.dataSync();
  full.dispose();
  half.dispose();
  return cpuMilliseconds() - start;
}

/** The network as the product runs it: without the last step, which moves numbers and computes nothing. */
function packedRun(): number {
  const start = cpuMilliseconds();
  const { packed, half } = graph.runPacked(bare);
  packed.dataSync();
  half.dataSync();
  packed.dispose();
  half.dispose();
  return cpuMilliseconds() - start;
}

/** Processor time, so that other programs on the machine don't count. */
function cpuMilliseconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
const tally = new Map<string, { found: number; points: number; hit: number; background: number }>();
const rows: object[] = [];
const { scale, shift } = graph.manifest.calibration;
const ratios: number[] = [];
const packedRatios: number[] = [];
const times: number[] = [];
bareRun();
for (const image of images.filter((_, i) => i % Number(nth) === 0)) {
  const { data, info } = await sharp(join(folder, image.file))
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const raster = { width: info.width, height: info.height, data: new Uint8ClampedArray(data) };
  const before = bareRun();
  const packedOnce = packedRun();
  const start = cpuMilliseconds();
  const planes = await network.segment(raster);
  const spent = cpuMilliseconds() - start;
  const one = (before + bareRun()) / 2;
  if (Math.max(info.width, info.height) >= 1200) {
    ratios.push(spent / one);
    packedRatios.push(spent / packedOnce);
    times.push(spent);
  }
  const probability = (q: { x: number; y: number }): number =>
    planes.wire[Math.min(info.height - 1, Math.floor(q.y)) * info.width + Math.min(info.width - 1, Math.floor(q.x))]!;
  const hit = (q: { x: number; y: number }): number => (probability(q) > 0.5 ? 1 : 0);
  for (const conductor of [true, false])
    for (const q of conductor ? image.points : image.background) {
      const p = Math.min(1 - 1e-7, Math.max(1e-4, probability(q)));
      const logOdds = (Math.log(p / (1 - p)) - shift) / scale;
      rows.push({ photo: image.file, source: image.source, scene: image.scene, conductor, logOdds });
    }
  for (const key of [image.scene, 'all']) {
    const row = tally.get(key) ?? { found: 0, points: 0, hit: 0, background: 0 };
    row.points += image.points.length;
    row.background += image.background.length;
    for (const q of image.points) row.found += hit(q);
    for (const q of image.background) row.hit += hit(q);
    tally.set(key, row);
  }
}
for (const [scene, { found, points, hit, background }] of [...tally].sort())
  console.log(
    `${scene.padEnd(10)} found ${((100 * found) / points).toFixed(1)} % of ${points}, background hit ${((100 * hit) / Math.max(1, background)).toFixed(1)} % of ${background}`,
  );
console.log(
  `photos of 1200 px and more: median ${median(times).toFixed(0)} ms of processor time, ${median(ratios).toFixed(2)} (at most ${Math.max(...ratios).toFixed(2)}) times one bare 512 px run; ${median(packedRatios).toFixed(2)} (at most ${Math.max(...packedRatios).toFixed(2)}) times one without its last step`,
);
if (pointsPath) writeFileSync(pointsPath, JSON.stringify(rows));
network.dispose();
graph.dispose();
bare.dispose();
