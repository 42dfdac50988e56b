import type { Point, Raster } from '../../flow';
import type { Segmentation } from '../segmenter';

/** Opponent color with little weight on lightness, so that shading along a conductor changes it little. */
export type Look = readonly [light: number, redGreen: number, blueYellow: number];

/** What tracing reads: the segmentation and the pixels, with border-safe access. */
export interface Field {
  readonly width: number;
  readonly height: number;
  readonly planes: Segmentation;
  /** Look of each pixel, three values interleaved. */
  readonly look: Float32Array;
  /** Wire probability that a trace needs to go on, and to begin. */
  readonly least: number;
  readonly seed: number;
  /** Shorter than this many widths is a screw, a letter, a ferrule. */
  readonly shortest: number;
}

/** A learned probability means what it says; strips are everywhere, so a strip must be clear. */
const LEARNED = { least: 0.2, seed: 0.35, shortest: 1.2 };
const STRIPS = { least: 0.35, seed: 0.6, shortest: 4 };

export function makeField(planes: Segmentation, raster: Raster): Field {
  const pixels = raster.width * raster.height;
  const look = new Float32Array(pixels * 3);
  for (let i = 0; i < pixels; i++) {
    const r = raster.data[i * 4]!;
    const g = raster.data[i * 4 + 1]!;
    const b = raster.data[i * 4 + 2]!;
    const light = (r + 2 * g + b) / 4;
    // Chroma relative to lightness is what shading leaves alone; the constant keeps dark noise from exploding.
    const scale = 100 / (light + 40);
    look[i * 3] = light;
    look[i * 3 + 1] = (r - g) * scale;
    look[i * 3 + 2] = ((r + g) / 2 - b) * scale;
  }
  return { width: raster.width, height: raster.height, planes, look, ...(planes.learned ? LEARNED : STRIPS) };
}

/** Difference of two looks; about 10 is a shade, above 35 another color. */
export const lookDistance = (a: Look, b: Look): number => {
  const light = 0.3 * (a[0] - b[0]);
  const redGreen = a[1] - b[1];
  const blueYellow = a[2] - b[2];
  return Math.sqrt(light * light + redGreen * redGreen + blueYellow * blueYellow);
};

/** Difference of a look from that of pixel `i`; tracing asks for it a million times, so that nothing is made for it. */
export function lookApart({ look }: Field, a: Look, i: number): number {
  const light = 0.3 * (a[0] - look[i * 3]!);
  const redGreen = a[1] - look[i * 3 + 1]!;
  const blueYellow = a[2] - look[i * 3 + 2]!;
  return Math.sqrt(light * light + redGreen * redGreen + blueYellow * blueYellow);
}

export const inField = (field: Field, x: number, y: number): boolean =>
  x >= 0 && y >= 0 && x < field.width && y < field.height;

export const indexAt = (field: Field, x: number, y: number): number => Math.floor(y) * field.width + Math.floor(x);

/** Calls back for every pixel of the picture that lies within a radius, in whole steps from a place. */
export function forDisk(field: Field, [x, y]: Point, radius: number, visit: (i: number) => void): void {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  const reach = Math.floor(radius);
  for (let oy = Math.max(-reach, -row); oy <= Math.min(reach, field.height - 1 - row); oy++) {
    const half = Math.floor(Math.sqrt(radius * radius - oy * oy));
    const from = (row + oy) * field.width + column;
    const last = Math.min(half, field.width - 1 - column);
    for (let ox = Math.max(-half, -column); ox <= last; ox++) visit(from + ox);
  }
}

export const lookAt = (field: Field, i: number): Look => [
  field.look[i * 3]!,
  field.look[i * 3 + 1]!,
  field.look[i * 3 + 2]!,
];

/** How well the conductor at pixel `i` runs along (dx, dy): 1 along, 0 across or unknown. */
export function alignment(field: Field, i: number, dx: number, dy: number): number {
  const c = field.planes.direction[i * 2]!;
  const s = field.planes.direction[i * 2 + 1]!;
  const size = Math.sqrt(c * c + s * s);
  if (size < 1e-3) return 0;
  const way = (c * (dx * dx - dy * dy) + s * 2 * dx * dy) / size;
  return Math.max(way, 0);
}
