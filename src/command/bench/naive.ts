import { converter } from 'culori';
import sharp from 'sharp';
import type { ColorName } from '../../flow';

/**
 * What one would build in an afternoon from the same libraries: one threshold for the whole picture on the distance
 * from the median color in CIELAB, connected parts, and for each part the nearest of thirteen colors. Measured
 * beside the program to show what the rest of it is for.
 */
export interface NaivePart {
  readonly name: ColorName;
  readonly pixels: number;
}

export interface NaiveReading {
  /** Working pixels per full-size pixel. */
  readonly scale: number;
  /** The part a point of the full-size picture lies in, if any. */
  partAt(x: number, y: number): NaivePart | null;
  readonly parts: readonly NaivePart[];
}

/** CIELAB of plain insulation colors, rounded from the Munsell centers in test/published. */
const CENTERS: readonly (readonly [ColorName, number, number, number])[] = [
  ['black', 16, 0, 0],
  ['brown', 36, 20, 26],
  ['red', 41, 55, 30],
  ['orange', 62, 44, 62],
  ['yellow', 82, 4, 78],
  ['green', 51, -42, 20],
  ['blue', 41, -8, -38],
  ['violet', 41, 28, -34],
  ['gray', 56, 0, 0],
  ['white', 92, 0, 2],
  ['pink', 72, 28, 8],
  ['turquoise', 62, -34, -12],
  ['green-yellow', 66, -20, 50],
];
const SIDE = 1600;
/** Distance from the median color beyond which a pixel is no background. */
const AWAY = 25;
/** Smaller parts are specks, larger ones walls: shares of the picture. */
const LEAST = 0.0005;
const MOST = 0.25;

const toLab = converter('lab65');

/** CIELAB of a cut-down sRGB cube, so that a picture costs one conversion a cell. */
const CUBE = (() => {
  const out = new Float32Array(32 ** 3 * 3);
  for (let k = 0; k < 32 ** 3; k++) {
    const channel = (shift: number): number => (((k >> shift) & 31) + 0.5) / 32;
    const { l, a, b } = toLab({ mode: 'rgb', r: channel(10), g: channel(5), b: channel(0) });
    out.set([l, a, b], 3 * k);
  }
  return out;
})();

const middle = (values: Float32Array): number => values.sort()[values.length >> 1] ?? 0;

export async function readNaively(bytes: Uint8Array): Promise<NaiveReading> {
  const { width: full = 1 } = await sharp(bytes).metadata();
  const { data, info } = await sharp(bytes)
    .rotate()
    .resize(SIDE, SIDE, { fit: 'inside', withoutEnlargement: true })
    .flatten()
    .toColorspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  const count = width * height;
  const cell = new Uint16Array(count);
  for (let k = 0; k < count; k++)
    cell[k] = ((data[3 * k]! >> 3) << 10) | ((data[3 * k + 1]! >> 3) << 5) | (data[3 * k + 2]! >> 3);
  const channel = (c: number): Float32Array => Float32Array.from(cell, (v) => CUBE[3 * v + c]!);
  const usual = [0, 1, 2].map((c) => middle(channel(c)));
  const away = Uint8Array.from(cell, (v) => (Math.hypot(...usual.map((u, c) => CUBE[3 * v + c]! - u)) > AWAY ? 1 : 0));
  const { label, members } = connected(away, width, height);
  const parts = members.map((pixels): NaivePart | null => {
    if (pixels.length < LEAST * count || pixels.length > MOST * count) return null;
    const lab = [0, 1, 2].map((c) => pixels.reduce((sum, k) => sum + CUBE[3 * cell[k]! + c]!, 0) / pixels.length);
    const far = ([, ...center]: (typeof CENTERS)[number]): number => Math.hypot(...center.map((v, c) => v - lab[c]!));
    const [name] = CENTERS.reduce((best, one) => (far(one) < far(best) ? one : best));
    return { name, pixels: pixels.length };
  });
  // Photos that were turned have their width at the side; the index counts upright pixels, whose scale is the same.
  const scale = Math.min(1, SIDE / Math.max(full, (full * height) / width));
  return {
    scale,
    parts: parts.filter((p) => p !== null),
    partAt(x, y) {
      const [px, py] = [Math.floor(x * scale), Math.floor(y * scale)];
      if (px < 0 || py < 0 || px >= width || py >= height) return null;
      return parts[label[py * width + px]! - 1] ?? null;
    },
  };
}

/** Four-connected parts of a mask; label 0 is background, label n the n-th list of members. */
function connected(mask: Uint8Array, width: number, height: number) {
  const label = new Int32Array(mask.length);
  const members: number[][] = [];
  for (let start = 0; start < mask.length; start++) {
    if (!mask[start] || label[start]) continue;
    const own: number[] = [start];
    label[start] = members.length + 1;
    for (let k = 0; k < own.length; k++) {
      const at = own[k]!;
      const x = at % width;
      for (const next of [x > 0 ? at - 1 : -1, x + 1 < width ? at + 1 : -1, at - width, at + width]) {
        if (next < 0 || next >= width * height || !mask[next] || label[next]) continue;
        label[next] = members.length + 1;
        own.push(next);
      }
    }
    members.push(own);
  }
  return { label, members };
}
