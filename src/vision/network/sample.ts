import type { Raster } from '../../flow';

/** A rectangle of a raster, in its pixels. */
export interface Window {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** For each output pixel the first input pixel, and weights of the following ones; weights sum to 1. */
interface Taps {
  readonly first: Int32Array;
  readonly weights: readonly Float32Array[];
}

/** A triangle as wide as an output pixel's footprint: smooths when shrinking, interpolates when growing. */
function triangleTaps(from: number, size: number, out: number, limit: number): Taps {
  const scale = size / out;
  const reach = Math.max(1, scale);
  const first = new Int32Array(out);
  const weights: Float32Array[] = [];
  for (let i = 0; i < out; i++) {
    const center = from + (i + 0.5) * scale;
    const low = Math.max(0, Math.floor(center - reach + 0.5));
    const high = Math.min(limit - 1, Math.floor(center + reach - 0.5));
    const list: number[] = [];
    for (let k = low; k <= high; k++) list.push(Math.max(0, 1 - Math.abs(k + 0.5 - center) / reach));
    const sum = list.reduce((a, b) => a + b, 0) || 1;
    first[i] = low;
    weights.push(Float32Array.from(list, (w) => w / sum));
  }
  return { first, weights };
}

/**
 * A window of the raster at another size, as the network wants it: RGB, 0 to 1, row by row, sRGB-encoded.
 * Shrinking smooths first (triangle filter), as the training's resizing does.
 */
export function sampleWindow(raster: Raster, window: Window, width: number, height: number): Float32Array {
  const out = new Float32Array(width * height * 3);
  if (window.width === width && window.height === height) {
    for (let y = 0, to = 0; y < height; y++)
      for (let x = 0, at = ((window.y + y) * raster.width + window.x) * 4; x < width; x++, at += 4)
        for (let c = 0; c < 3; c++) out[to++] = raster.data[at + c]! / 255;
    return out;
  }
  const tx = triangleTaps(window.x, window.width, width, raster.width);
  const ty = triangleTaps(window.y, window.height, height, raster.height);
  const top = ty.first[0]!;
  const bottom = ty.first[height - 1]! + ty.weights[height - 1]!.length;
  const rows = new Float32Array((bottom - top) * width * 3);
  for (let y = top, to = 0; y < bottom; y++)
    for (let x = 0; x < width; x++) {
      const weights = tx.weights[x]!;
      let at = (y * raster.width + tx.first[x]!) * 4;
      let r = 0;
      let g = 0;
      let b = 0;
      for (let k = 0; k < weights.length; k++, at += 4) {
        const w = weights[k]!;
        r += w * raster.data[at]!;
        g += w * raster.data[at + 1]!;
        b += w * raster.data[at + 2]!;
      }
      rows[to++] = r / 255;
      rows[to++] = g / 255;
      rows[to++] = b / 255;
    }
  for (let y = 0; y < height; y++) {
    const weights = ty.weights[y]!;
    for (let k = 0; k < weights.length; k++) {
      const w = weights[k]!;
      const from = (ty.first[y]! - top + k) * width * 3;
      for (let i = 0, to = y * width * 3; i < width * 3; i++, to++) out[to]! += w * rows[from + i]!;
    }
  }
  return out;
}
