import type { Raster } from '../../flow';
import { nthSmallest } from '../nth-smallest';
import { LINEAR_OF_LEVEL, luminance, type Rgb } from '../spaces';

/** A light estimate of a region as (ln r/g, ln b/g). */
export type LogRatio = readonly [number, number];

/** A photo thinned to linear light on a coarse grid. Clipped and near-black cells have weight 0. */
export interface Thumb {
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
  readonly usable: Uint8Array;
}

const CLIPPED = 250;
const BLACK = 4;

/** Thins a raster to at most `longSide` cells on its long side, averaging 2 x 2 pixels in linear light. */
export function thumbOf(raster: Raster, longSide = 160): Thumb {
  const step = Math.max(1, Math.max(raster.width, raster.height) / longSide);
  const width = Math.max(1, Math.floor(raster.width / step));
  const height = Math.max(1, Math.floor(raster.height / step));
  const rgb = new Float32Array(width * height * 3);
  const usable = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const px = Math.floor((x + 0.5) * step);
      const py = Math.floor((y + 0.5) * step);
      const cell = y * width + x;
      let top = 0;
      for (let k = 0; k < 4; k++) {
        const qx = Math.min(raster.width - 1, px + (k & 1));
        const qy = Math.min(raster.height - 1, py + (k >> 1));
        const at = (qy * raster.width + qx) * 4;
        for (let c = 0; c < 3; c++) {
          const level = raster.data[at + c]!;
          if (level > top) top = level;
          rgb[cell * 3 + c]! += LINEAR_OF_LEVEL[level]! / 4;
        }
      }
      usable[cell] = top < CLIPPED && top > BLACK ? 1 : 0;
    }
  }
  return { width, height, rgb, usable };
}

/** A rectangle of cells; the whole thumb when left out. */
export interface Region {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const ratio = (r: number, g: number, b: number): LogRatio | null =>
  r > 0 && g > 0 && b > 0 ? [Math.log(r / g), Math.log(b / g)] : null;

type Order = 1 | 4 | 6;

/** Powers by multiplying: `**` takes as long as all the rest of a mean together. */
const RAISED: Readonly<Record<Order, (v: number) => number>> = {
  1: (v) => v,
  4: (v) => v * v * (v * v),
  6: (v) => v * v * v * (v * v * v),
};

function minkowski(
  thumb: Thumb,
  region: Region,
  order: Order,
  value: (cell: number, out: Float64Array) => boolean,
): LogRatio | null {
  const raised = RAISED[order];
  const sums = [0, 0, 0];
  const out = new Float64Array(3);
  let n = 0;
  for (let y = region.top; y < region.bottom; y++) {
    for (let x = region.left; x < region.right; x++) {
      const cell = y * thumb.width + x;
      if (!thumb.usable[cell] || !value(cell, out)) continue;
      for (let c = 0; c < 3; c++) sums[c]! += raised(out[c]!);
      n++;
    }
  }
  if (n < 16) return null;
  return ratio(sums[0]! ** (1 / order), sums[1]! ** (1 / order), sums[2]! ** (1 / order));
}

/** Shades of gray: Minkowski mean of order 6 (Finlayson and Trezzi, Color Imaging Conference 2004). */
export const shadesOfGray = (thumb: Thumb, region: Region): LogRatio | null =>
  minkowski(thumb, region, 6, (cell, out) => {
    for (let c = 0; c < 3; c++) out[c] = thumb.rgb[cell * 3 + c]!;
    return true;
  });

/** How much a channel changes from a number of `rgb` to those of the cells right of it and below, `below` numbers on. */
export function change(rgb: Float32Array, at: number, below: number): number {
  const x = rgb[at + 3]! - rgb[at]!;
  const y = rgb[at + below]! - rgb[at]!;
  return Math.sqrt(x * x + y * y);
}

/** Gray edge of first order, Minkowski norm 4 (van de Weijer, Gevers, Gijsenij, IEEE TIP 16(9), 2007). */
export const grayEdge = (thumb: Thumb, region: Region): LogRatio | null =>
  minkowski(thumb, region, 4, (cell, out) => {
    const x = cell % thumb.width;
    const right = cell + 1;
    const below = cell + thumb.width;
    if (x + 1 >= thumb.width || below >= thumb.usable.length) return false;
    if (!thumb.usable[right] || !thumb.usable[below]) return false;
    for (let c = 0; c < 3; c++) out[c] = change(thumb.rgb, cell * 3 + c, thumb.width * 3);
    return true;
  });

/** Bright pixels: mean of the brightest unclipped 4 % (Joze, Drew, Finlayson, Rey, Color Imaging Conference 2012). */
export function brightPixels(thumb: Thumb, region: Region): LogRatio | null {
  const cells: number[] = [];
  for (let y = region.top; y < region.bottom; y++) {
    for (let x = region.left; x < region.right; x++) {
      const cell = y * thumb.width + x;
      if (thumb.usable[cell]) cells.push(cell);
    }
  }
  if (cells.length < 64) return null;
  const light = new Float64Array(cells.length);
  for (let k = 0; k < cells.length; k++) light[k] = cellLuminance(thumb, cells[k]!);
  const take = Math.max(8, Math.round(cells.length * 0.04));
  // Only cells that may be among the brightest are put in order: sorting all takes as long as the other estimates together.
  const least = nthSmallest(light.slice(), cells.length - take)!;
  const bright: number[] = [];
  for (let k = 0; k < cells.length; k++) if (light[k]! >= least) bright.push(k);
  bright.sort((a, b) => light[b]! - light[a]!);
  const sum = [0, 0, 0];
  for (const k of bright.slice(0, take)) for (let c = 0; c < 3; c++) sum[c]! += thumb.rgb[cells[k]! * 3 + c]!;
  return ratio(sum[0]!, sum[1]!, sum[2]!);
}

/** Gray world: the plain mean (Buchsbaum 1980). Kept as the yardstick the fused estimate is measured against. */
export const grayWorld = (thumb: Thumb, region: Region): LogRatio | null =>
  minkowski(thumb, region, 1, (cell, out) => {
    for (let c = 0; c < 3; c++) out[c] = thumb.rgb[cell * 3 + c]!;
    return true;
  });

const cellLuminance = (thumb: Thumb, cell: number): number =>
  luminance(thumb.rgb[cell * 3]!, thumb.rgb[cell * 3 + 1]!, thumb.rgb[cell * 3 + 2]!);

/** Quantile of luminance over all cells, clipped ones included. */
export function luminanceQuantile(thumb: Thumb, q: number): number {
  const all = new Float32Array(thumb.usable.length);
  for (let cell = 0; cell < all.length; cell++) all[cell] = cellLuminance(thumb, cell);
  return nthSmallest(all, Math.min(all.length - 1, Math.floor(q * all.length))) ?? 0;
}

export const whole = (thumb: Thumb): Region => ({ left: 0, top: 0, right: thumb.width, bottom: thumb.height });

/** Linear sRGB, green = 1, of a log ratio. */
export const rgbOfRatio = (at: LogRatio): Rgb => [Math.exp(at[0]), 1, Math.exp(at[1])];

/** Angle in degrees between two colors of linear light seen as vectors: the usual measure of error of a light estimate. */
export function angleBetween(p: Rgb, q: Rgb): number {
  const dot = p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
  const norm = Math.hypot(...p) * Math.hypot(...q);
  return norm > 0 ? (Math.acos(Math.min(1, Math.max(-1, dot / norm))) * 180) / Math.PI : 0;
}

/** Angle in degrees between two lights. */
export const angleDeg = (x: LogRatio, y: LogRatio): number => angleBetween(rgbOfRatio(x), rgbOfRatio(y));
