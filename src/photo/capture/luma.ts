import type { Raster } from '../../flow';

/** Luma of sRGB-encoded pixels (weights of ITU-R BT.709), 0 to 255, row by row. */
export function luma({ width, height, data }: Raster): Float32Array {
  const out = new Float32Array(width * height);
  for (let i = 0, p = 0; i < out.length; i++, p += 4)
    out[i] = 0.2126 * (data[p] as number) + 0.7152 * (data[p + 1] as number) + 0.0722 * (data[p + 2] as number);
  return out;
}

/** The value below which `share` of the sorted list lies; NaN for an empty list. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}
