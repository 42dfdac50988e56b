import type { Ribbon } from '../../flow';
import { nthSmallest } from '../nth-smallest';
import { luminance, saturationOf } from '../spaces';

/** One pixel's worth of a ribbon, with its features. */
export interface Sample {
  readonly r: number;
  readonly g: number;
  readonly b: number;
  /** Relative luminance. */
  readonly y: number;
  /** OKLab a/L and b/L. */
  readonly s: number;
  readonly t: number;
}

export function sampleOf(r: number, g: number, b: number): Sample {
  const [s, t] = saturationOf(r, g, b);
  return { r, g, b, y: luminance(r, g, b), s, t };
}

/** How much of the half width is free of the background that blur mixes in. Assumed, from the width of a Gaussian edge. */
export function coreOf(widthPx: number, blurPx: number): number {
  if (widthPx < 5) return 0.25;
  const mixed = (2 * Math.max(0.5, blurPx)) / widthPx;
  return Math.min(0.75, Math.max(0.3, 0.88 - 1.4 * mixed));
}

/** Rows looked at: a long ribbon is thinned, its neighbors say the same. */
const MOST_ROWS = 60;

/** Columns of a ribbon whose middle lies within `core` of the center line (1 is the edge); at least the middle ones. */
export function coreColumns(across: number, core: number): number[] {
  const middle = (across - 1) / 2;
  const reach = Math.max(0.51, core * (across / 2));
  return Array.from({ length: across }, (_, j) => j).filter((j) => Math.abs(j - middle) <= reach);
}

/** Usable samples within `core` of the center line (1 is the edge); `looked` counts the unusable ones too. */
export function coreSamples(ribbon: Ribbon, core: number): { samples: Sample[]; looked: number } {
  const samples: Sample[] = [];
  let looked = 0;
  const columns = coreColumns(ribbon.across, core);
  const step = Math.max(1, Math.ceil(ribbon.length / MOST_ROWS));
  for (let i = 0; i < ribbon.length; i += step) {
    for (const j of columns) {
      looked++;
      const at = i * ribbon.across + j;
      if (!ribbon.usable[at]) continue;
      samples.push(sampleOf(ribbon.rgb[at * 3]!, ribbon.rgb[at * 3 + 1]!, ribbon.rgb[at * 3 + 2]!));
    }
  }
  return { samples, looked };
}

const placeOf = (q: number, count: number): number => Math.min(count - 1, Math.max(0, Math.floor(q * count)));

export const quantile = (sorted: ArrayLike<number>, q: number): number => sorted[placeOf(q, sorted.length)] ?? 0;

/** The same of values in any order; reorders them. */
export const unsortedQuantile = (values: Float64Array, q: number): number =>
  nthSmallest(values, placeOf(q, values.length)) ?? 0;
