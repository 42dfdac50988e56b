import { type Cov3, logNormal3 } from '../gaussian';
import type { LightPosterior } from '../light/types';
import type { Body } from '../ribbon/body';
import { featuresUnder, measurementCov } from './measurement';

export interface Comparison {
  /** log10 of p(both readings | same color) over p(both readings | two colors). Above 1 speaks for same, below -1 against. */
  readonly log10Ratio: number;
  /** Distance in the hue plane in units of its own uncertainty. */
  readonly sigmas: number;
}

/** How insulations of unlike color are spread over the feature space: what "another color" may be. From the palette's simulation. */
const ANY: Cov3 = [0.032, 0, 0, 0.03, 0, 3];
/** Two conductors of one color still differ by maker, age and place. Assumed. */
const SAME = { chroma: 0.015, stops: 0.8 };

/**
 * "Is this the same color as that?" for two bodies under one light; the light's own error cancels to first order.
 * Symmetric in its arguments.
 */
export function compareInsulations(x: Body, y: Body, light: LightPosterior): Comparison {
  const at: readonly [number, number] = [Math.log(light.mean[0]), Math.log(light.mean[2])];
  const p = featuresUnder(x, at, light.anchor);
  const q = featuresUnder(y, at, light.anchor);
  const cx = measurementCov(x, light.anchor, 1);
  const cy = measurementCov(y, light.anchor, 1);
  const both = cx.map((v, i) => v + cy[i]!) as unknown as [number, number, number, number, number, number];
  const same: Cov3 = [
    both[0] + SAME.chroma ** 2,
    both[1],
    both[2],
    both[3] + SAME.chroma ** 2,
    both[4],
    both[5] + SAME.stops ** 2,
  ];
  const other: Cov3 = [both[0] + 2 * ANY[0], both[1], both[2], both[3] + 2 * ANY[3], both[4], both[5] + 2 * ANY[5]];
  const d = [p[0] - q[0], p[1] - q[1], p[2] - q[2]] as const;
  const ratio = logNormal3(d[0], d[1], d[2], same) - logNormal3(d[0], d[1], d[2], other);
  return { log10Ratio: ratio / Math.LN10, sigmas: Math.sqrt(d[0] ** 2 / same[0] + d[1] ** 2 / same[3]) };
}
