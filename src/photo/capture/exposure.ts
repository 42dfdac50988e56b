import { LINEAR_OF_LEVEL as LINEAR } from '../../color';
import type { Raster } from '../../flow';

const CLIPPED = 250;

export interface Exposure {
  /** Share of pixels with any channel at 250 or above. */
  readonly clippedShare: number;
  /** Median relative luminance of linear light, 0 to 1. */
  readonly medianLuminance: number;
  /** Relative luminance that the brightest thirtieth of the picture reaches, 0 to 1. */
  readonly litLuminance: number;
}

/** Square root spreads the dark end, where the verdict needs resolution. */
const BINS = 1024;
const luminanceOf = (bin: number): number => ((bin + 0.5) / BINS) ** 2;

function binAt(counts: Uint32Array, share: number, total: number): number {
  let seen = 0;
  let bin = 0;
  while (bin < BINS - 1 && seen + (counts[bin] as number) < share * total) seen += counts[bin++] as number;
  return bin;
}

/** Clipping and darkness of a picture; every second pixel of every second row. */
export function exposure({ width, height, data }: Raster): Exposure {
  const counts = new Uint32Array(BINS);
  let clipped = 0;
  let total = 0;
  for (let y = 0; y < height; y += 2) {
    for (let p = y * width * 4, end = p + width * 4; p < end; p += 8) {
      const r = data[p] as number;
      const g = data[p + 1] as number;
      const b = data[p + 2] as number;
      if (r >= CLIPPED || g >= CLIPPED || b >= CLIPPED) clipped += 1;
      const light = 0.2126 * (LINEAR[r] as number) + 0.7152 * (LINEAR[g] as number) + 0.0722 * (LINEAR[b] as number);
      const bin = Math.min(BINS - 1, Math.floor(Math.sqrt(light) * BINS));
      counts[bin] = (counts[bin] as number) + 1;
      total += 1;
    }
  }
  return {
    clippedShare: clipped / total,
    medianLuminance: luminanceOf(binAt(counts, 0.5, total)),
    litLuminance: luminanceOf(binAt(counts, 0.97, total)),
  };
}
