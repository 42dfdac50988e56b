import { nthSmallest } from '../../color';
import type { Raster } from '../../flow';

/** Kept from photo to photo: a fresh plane of this size takes ten times as long to get as to fill. */
let kept = new Float32Array(0);

/** Luma of sRGB-encoded pixels (weights of ITU-R BT.709), 0 to 255, row by row. Valid until the next call. */
export function luma({ width, height, data }: Raster): Float32Array {
  if (kept.length < width * height) kept = new Float32Array(width * height);
  const out = kept.subarray(0, width * height);
  for (let i = 0, p = 0; i < out.length; i++, p += 4)
    out[i] = 0.2126 * (data[p] as number) + 0.7152 * (data[p + 1] as number) + 0.0722 * (data[p + 2] as number);
  return out;
}

/** The value below which `share` of the list lies when sorted; NaN for an empty list. */
export function quantile(values: readonly number[], share: number): number {
  const place = Math.min(values.length - 1, Math.floor(share * values.length));
  return nthSmallest(new Float64Array(values), place) ?? Number.NaN;
}
