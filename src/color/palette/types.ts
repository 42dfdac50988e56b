import type { ColorName } from '../../flow';

/**
 * One Gaussian of a name in feature space: weight, mean of (a/L, b/L, log2 Y), and the upper triangle of its
 * covariance row by row.
 */
export type MixturePart = readonly [
  weight: number,
  m0: number,
  m1: number,
  m2: number,
  c00: number,
  c01: number,
  c02: number,
  c11: number,
  c12: number,
  c22: number,
];

export interface PaletteEntry {
  /** How often the name is met (assumed); sums to about 1 over all names. */
  readonly prior: number;
  /** Mean CIELAB D65 of new insulation of this name. */
  readonly center: readonly [number, number, number];
  /** What readings of this name look like, light removed. */
  readonly parts: readonly MixturePart[];
}

/** The surfaces that are told apart: insulation names, and bare metal. */
export type Surface = ColorName | 'copper' | 'tinned';

export type PaletteData = Readonly<Record<Surface, PaletteEntry>>;
