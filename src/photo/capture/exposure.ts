import type { Raster } from '../../flow';

const CLIPPED = 250;

/** sRGB level (0 to 255) to linear light (0 to 1), IEC 61966-2-1. */
export const LINEAR: Float32Array = Float32Array.from({ length: 256 }, (_, level) => {
  const v = level / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

export interface Exposure {
  /** Share of pixels with any channel at 250 or above. */
  readonly clippedShare: number;
  /** Median relative luminance of linear light, 0 to 1. */
  readonly medianLuminance: number;
}

/** Clipping and darkness of a picture, from every pixel. */
export function exposure({ width, height, data }: Raster): Exposure {
  const counts = new Uint32Array(1024);
  let clipped = 0;
  for (let p = 0; p < data.length; p += 4) {
    const [r, g, b] = [data[p] as number, data[p + 1] as number, data[p + 2] as number];
    if (r >= CLIPPED || g >= CLIPPED || b >= CLIPPED) clipped += 1;
    const y = 0.2126 * (LINEAR[r] as number) + 0.7152 * (LINEAR[g] as number) + 0.0722 * (LINEAR[b] as number);
    // Square root spreads the dark end, where the verdict needs resolution.
    const bin = Math.min(1023, Math.floor(Math.sqrt(y) * 1024));
    counts[bin] = (counts[bin] as number) + 1;
  }
  const total = width * height;
  let seen = 0;
  let bin = 0;
  while (bin < 1023 && seen + (counts[bin] as number) < total / 2) seen += counts[bin++] as number;
  return { clippedShare: clipped / total, medianLuminance: ((bin + 0.5) / 1024) ** 2 };
}
