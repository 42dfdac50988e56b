import type { Point, Raster } from '../../flow';
import type { Segmentation } from '../segmenter';

/** Opponent color with little weight on lightness, so that shading along a conductor changes it little. */
export type Look = readonly [light: number, redGreen: number, blueYellow: number];

/** What tracing reads: the segmentation and the pixels, with border-safe access. */
export interface Field {
  readonly width: number;
  readonly height: number;
  readonly planes: Segmentation;
  readonly raster: Raster;
  /** Wire probability that a trace needs to go on, and to begin. */
  readonly least: number;
  readonly seed: number;
  /** Shorter than this many widths is a screw, a letter, a ferrule. */
  readonly shortest: number;
}

/** A learned probability means what it says; strips are everywhere, so a strip must be clear. */
const LEARNED = { least: 0.2, seed: 0.35, shortest: 1.2 };
const STRIPS = { least: 0.35, seed: 0.6, shortest: 4 };

export const makeField = (planes: Segmentation, raster: Raster): Field => ({
  width: raster.width,
  height: raster.height,
  planes,
  raster,
  ...(planes.learned ? LEARNED : STRIPS),
});

let kept = new Float32Array(0);

/**
 * A plane of zeros, one a pixel of a field, valid until the next call. It is kept from photo to photo: a fresh plane of
 * a photo's size takes ten times as long to get as to fill.
 */
export function zeroPlane({ width, height }: Field): Float32Array {
  if (kept.length < width * height) kept = new Float32Array(width * height);
  return kept.subarray(0, width * height).fill(0);
}

/** Lightness of pixel `i`, 0 to 255. */
export const lightAt = ({ raster: { data } }: Field, i: number): number =>
  (data[i * 4]! + 2 * data[i * 4 + 1]! + data[i * 4 + 2]!) / 4;

/** Chroma relative to lightness is what shading leaves alone; the constant keeps dark noise from exploding. */
const chromaScale = (light: number): number => 100 / (light + 40);

/**
 * Look of pixel `i`. Looks are made where they are asked for, since most pixels never are; in single precision, in which
 * the thresholds on them were set.
 */
export function lookAt(field: Field, i: number): Look {
  const { data } = field.raster;
  const [r, g, b] = [data[i * 4]!, data[i * 4 + 1]!, data[i * 4 + 2]!];
  const light = lightAt(field, i);
  const scale = chromaScale(light);
  return [light, Math.fround((r - g) * scale), Math.fround(((r + g) / 2 - b) * scale)];
}

/** Difference of two looks; about 10 is a shade, above 35 another color. */
export const lookDistance = (a: Look, b: Look): number => {
  const light = 0.3 * (a[0] - b[0]);
  const redGreen = a[1] - b[1];
  const blueYellow = a[2] - b[2];
  return Math.sqrt(light * light + redGreen * redGreen + blueYellow * blueYellow);
};

/** Difference of a look from that of pixel `i`; tracing asks for it a million times, so that nothing is made for it. */
export function lookApart(field: Field, a: Look, i: number): number {
  const { data } = field.raster;
  const r = data[i * 4]!;
  const g = data[i * 4 + 1]!;
  const there = lightAt(field, i);
  const scale = chromaScale(there);
  const light = 0.3 * (a[0] - there);
  const redGreen = a[1] - Math.fround((r - g) * scale);
  const blueYellow = a[2] - Math.fround(((r + g) / 2 - data[i * 4 + 2]!) * scale);
  return Math.sqrt(light * light + redGreen * redGreen + blueYellow * blueYellow);
}

export const inField = (field: Field, x: number, y: number): boolean =>
  x >= 0 && y >= 0 && x < field.width && y < field.height;

export const indexAt = (field: Field, x: number, y: number): number => Math.floor(y) * field.width + Math.floor(x);

/**
 * Calls back for every row of pixels of the picture that lies within a radius, in whole steps from a place: from its
 * first pixel to one past its last.
 */
export function forDiskRows(field: Field, at: Point, radius: number, visit: (from: number, to: number) => void): void {
  const column = Math.floor(at[0]);
  const row = Math.floor(at[1]);
  const reach = Math.floor(radius);
  for (let oy = Math.max(-reach, -row); oy <= Math.min(reach, field.height - 1 - row); oy++) {
    const half = Math.floor(Math.sqrt(radius * radius - oy * oy));
    const middle = (row + oy) * field.width + column;
    const from = middle + Math.max(-half, -column);
    const to = middle + Math.min(half, field.width - 1 - column) + 1;
    if (from < to) visit(from, to);
  }
}

/** How well the conductor at pixel `i` runs along (dx, dy): 1 along, 0 across or unknown. */
export function alignment(field: Field, i: number, dx: number, dy: number): number {
  const c = field.planes.direction[i * 2]!;
  const s = field.planes.direction[i * 2 + 1]!;
  const size = Math.sqrt(c * c + s * s);
  if (size < 1e-3) return 0;
  const way = (c * (dx * dx - dy * dy) + s * 2 * dx * dy) / size;
  return Math.max(way, 0);
}
