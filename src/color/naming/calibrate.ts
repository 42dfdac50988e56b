import { COLOR_NAMES, type ColorCandidate, type ColorName } from '../../flow';
import { CALIBRATION } from './calibration-data';

/** Names by falling probability; ties in the order of COLOR_NAMES. */
export const ranked = (p: Readonly<Record<ColorName, number>>): ColorCandidate[] =>
  COLOR_NAMES.map((name) => ({ name, probability: p[name] })).sort((x, y) => y.probability - x.probability);

/**
 * The names that cannot be excluded: class-conditional split conformal prediction (Vovk, Gammerman, Shafer 2005,
 * chapter 4; Sadinle, Lei, Wasserman, JASA 2019). Thresholds come from held-out simulated readings.
 */
export function conformalSet(candidates: readonly ColorCandidate[]): ColorName[] {
  const names = candidates.filter((c) => c.probability >= CALIBRATION.threshold[c.name]).map((c) => c.name);
  const best = candidates[0]!.name;
  return names.includes(best) ? names : [best, ...names];
}
