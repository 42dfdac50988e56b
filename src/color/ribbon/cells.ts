import type { FineRibbon } from '../../flow';

/**
 * A ribbon's cells in a space where differences mean the same in light and shade: OKLab a and b over lightness, softened
 * in the dark where saturation is noise, and log2 of luminance.
 */
export interface Cells {
  readonly length: number;
  readonly across: number;
  readonly s: Float32Array;
  readonly t: Float32Array;
  readonly z: Float32Array;
  readonly ok: Uint8Array;
}

/** OKLab lightness under which saturation fades out: that of a reflectance of 0.2 %. Assumed. */
const SOFT = 0.12;
const DARKEST = 0.0015;

/** Features of every cell. OKLab after B. Ottosson, "A perceptual color space for image processing", 2020. */
export function cellsOf({
  length,
  across,
  rgb,
  usable,
}: Pick<FineRibbon, 'length' | 'across' | 'rgb' | 'usable'>): Cells {
  const n = length * across;
  const s = new Float32Array(n);
  const t = new Float32Array(n);
  const z = new Float32Array(n);
  for (let k = 0; k < n; k++) {
    const r = rgb[3 * k]!;
    const g = rgb[3 * k + 1]!;
    const b = rgb[3 * k + 2]!;
    const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
    const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
    const e = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
    const soft = 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * e + SOFT;
    s[k] = (1.9779984951 * l - 2.428592205 * m + 0.4505937099 * e) / soft;
    t[k] = (0.0259040371 * l + 0.7827717662 * m - 0.808675766 * e) / soft;
    z[k] = Math.log2(0.2126 * r + 0.7152 * g + 0.0722 * b + DARKEST);
  }
  return { length, across, s, t, z, ok: usable };
}

/** Middle value; reorders its argument. NaN when it is empty. */
export function median(values: number[]): number {
  if (values.length === 0) return Number.NaN;
  values.sort((p, q) => p - q);
  return values[values.length >> 1]!;
}
