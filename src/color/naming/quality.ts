import type { Cov3 } from '../gaussian';

/**
 * How well a conductor was seen, by what noise, blur, width, clipping and unevenness leave open of its hue: the same
 * measures that the verdict on a photo rests on, taken at the conductor itself.
 */
export const QUALITIES = ['clear', 'poor'] as const;
export type Quality = (typeof QUALITIES)[number];

/** Standard deviation in (a/L, b/L) together that parts clear from poor: the middle of the simulated readings. Assumed. */
const CLEAR = 0.036;

/** The class of a reading, from the covariance of its features. */
export const qualityOf = (cov: Cov3): Quality => (Math.sqrt(cov[0] + cov[3]) <= CLEAR ? 'clear' : 'poor');
