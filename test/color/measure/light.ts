/**
 * Tries the estimate of the light on small simulated pictures (stdin: lines of models/palette/make_pictures.py), beside
 * gray world on the same pictures: angular error, mean and worst quarter.
 */
import { readFileSync } from 'node:fs';
import { estimateLight, nameInsulations, twoLamps } from '../../../src/color';
import { chromaLight } from '../../../src/color/light/chroma-net';
import {
  angleDeg,
  brightPixels,
  grayEdge,
  grayWorld,
  type LogRatio,
  shadesOfGray,
  thumbOf,
  whole,
} from '../../../src/color/light/statistics';
import { LINEAR_OF_LEVEL } from '../../../src/color/spaces';
import type { ColorName, Raster, Ribbon } from '../../../src/flow';

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly rgb: string;
  readonly cast: LogRatio;
  readonly left: LogRatio;
  readonly right: LogRatio;
  readonly mixed: boolean;
  readonly noise: number;
  readonly conductors: readonly { readonly name: ColorName; readonly row: number; readonly width: number }[];
}

function rasterOf({ width, height, rgb }: Picture): Raster {
  const bytes = Buffer.from(rgb, 'base64');
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let k = 0; k < width * height; k++) for (let c = 0; c < 3; c++) data[k * 4 + c] = bytes[k * 3 + c]!;
  return { width, height, data };
}

/** A short stretch of a conductor round the middle column, straight enough to be cut out row by row. */
function ribbonOf(raster: Raster, { row, width }: Picture['conductors'][number], noise: number): Ribbon {
  const length = 16;
  const across = Math.max(1, Math.round(width));
  const rgb = new Float32Array(length * across * 3);
  const usable = new Uint8Array(length * across);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) {
      const x = Math.round(raster.width / 2 - length / 2 + i);
      const y = Math.min(raster.height - 1, Math.max(0, Math.round(row - across / 2 + j)));
      const at = (y * raster.width + x) * 4;
      const levels = [raster.data[at]!, raster.data[at + 1]!, raster.data[at + 2]!];
      for (let c = 0; c < 3; c++) rgb[(i * across + j) * 3 + c] = LINEAR_OF_LEVEL[levels[c]!]!;
      usable[i * across + j] = Math.max(...levels) < 250 ? 1 : 0;
    }
  return { length, across, stepPx: 1, widthPx: width, rgb, usable, noise, blurPx: 0.5 };
}

const errors: Record<string, { one: number[]; two: number[] }> = {};
const spreads: { mixed: boolean; deg: number; two: boolean }[] = [];
const named = { one: [0, 0], two: [0, 0] };
function note(what: string, mixed: boolean, at: LogRatio | null, truth: LogRatio): void {
  errors[what] ??= { one: [], two: [] };
  errors[what][mixed ? 'two' : 'one'].push(angleDeg(at ?? [0, 0], truth));
}

for (const line of readFileSync(0, 'utf8').split('\n').filter(Boolean)) {
  const picture = JSON.parse(line) as Picture;
  const raster = rasterOf(picture);
  const thumb = thumbOf(raster);
  const { cast, mixed } = picture;
  note('gray world', mixed, grayWorld(thumb, whole(thumb)), cast);
  note('shades of gray', mixed, shadesOfGray(thumb, whole(thumb)), cast);
  note('gray edge', mixed, grayEdge(thumb, whole(thumb)), cast);
  note('bright pixels', mixed, brightPixels(thumb, whole(thumb)), cast);
  note('network, no prior', mixed, chromaLight(thumb)?.at ?? null, cast);
  note('taken as neutral', mixed, [0, 0], cast);
  const light = estimateLight(raster);
  note('ours, by the scene', mixed, [Math.log(light.mean[0]), Math.log(light.mean[2])], cast);
  const ribbons = picture.conductors.map((one) => ribbonOf(raster, one, picture.noise));
  const { readings, light: after } = nameInsulations(ribbons, light);
  note('ours, after naming', mixed, [Math.log(after.mean[0]), Math.log(after.mean[2])], cast);
  spreads.push({ mixed, deg: light.mixedLightDeg, two: twoLamps(light) });
  const tally = named[mixed ? 'two' : 'one'];
  readings.forEach((r, k) => {
    tally[0]! += r.insulation.best === picture.conductors[k]!.name ? 1 : 0;
    tally[1]! += 1;
  });
}

function told(values: readonly number[]): string {
  const sorted = [...values].sort((a, b) => a - b);
  const mean = (of: readonly number[]): string =>
    (of.reduce((sum, v) => sum + v, 0) / Math.max(1, of.length)).toFixed(2);
  return `${mean(sorted).padStart(6)} ${mean(sorted.slice(Math.floor(0.75 * sorted.length))).padStart(6)}`;
}

console.log('degrees, mean and worst quarter      one lamp       two lamps, at the middle');
for (const [what, { one, two }] of Object.entries(errors))
  console.log(`${what.padEnd(30)} ${told(one)}   ${told(two)}`);
for (const mixed of [false, true]) {
  const of = spreads.filter((s) => s.mixed === mixed);
  const share = (100 * of.filter((s) => s.two).length) / Math.max(1, of.length);
  console.log(
    `grays of the parts apart, ${mixed ? 'two lamps' : 'one lamp'}: ${told(of.map((s) => s.deg))}; called two: ${share.toFixed(1)} %`,
  );
}
for (const [lamps, [right, all]] of Object.entries(named))
  console.log(`named rightly, ${lamps} lamp(s): ${((100 * right!) / Math.max(1, all!)).toFixed(1)} % of ${all}`);
