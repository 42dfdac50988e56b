import { COLOR_NAMES, type ColorCandidate, type ColorName } from '../../flow';
import { CALIBRATION } from './calibration-data';

/** Probabilities over COLOR_NAMES made softer (temperature above 1) or harder; they keep their sum. */
export function temper(p: Readonly<Record<ColorName, number>>, temperature: number): Record<ColorName, number> {
  const mass = COLOR_NAMES.reduce((sum, name) => sum + p[name], 0);
  const raised = COLOR_NAMES.map((name) => Math.max(1e-9, p[name] / mass) ** (1 / temperature));
  const total = raised.reduce((sum, v) => sum + v, 0);
  return Object.fromEntries(COLOR_NAMES.map((name, i) => [name, (mass * raised[i]!) / total])) as Record<
    ColorName,
    number
  >;
}

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
