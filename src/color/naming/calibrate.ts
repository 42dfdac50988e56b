import { COLOR_NAMES, type ColorCandidate, type ColorName } from '../../flow';
import { CALIBRATION } from './calibration-data';
import { eachName, type Names } from './names';
import { capped, type Opinion, opinionOf } from './opinion';
import type { Quality } from './quality';

/** Names by falling probability; ties in the order of COLOR_NAMES. */
export const ranked = (p: Readonly<Names>): ColorCandidate[] =>
  COLOR_NAMES.map((name) => ({ name, probability: p[name] })).sort((x, y) => y.probability - x.probability);

/** How often a name said with this probability is right, by straight lines between knots; rises with `said`. */
function rightShare(said: number, knots: readonly (readonly [number, number])[]): number {
  const k = knots.findIndex(([x]) => x >= said);
  if (k <= 0) return knots[k < 0 ? knots.length - 1 : 0]![1];
  const [x0, y0] = knots[k - 1]!;
  const [x1, y1] = knots[k]!;
  return y0 + ((y1 - y0) * (said - x0)) / (x1 - x0);
}

/**
 * The same opinion with its best name as sure as such names turn out right (isotonic regression, Zadrozny and Elkan,
 * KDD 2002); the others keep their proportions. The order of two opinions by sureness stays, and the best name stays best.
 */
export function honest(opinion: Opinion, knots = CALIBRATION.reliability): Opinion {
  const [first, second] = ranked(opinion.names);
  const said = first!.probability;
  if (said <= 0 || said >= 1) return opinion;
  const least = second!.probability / (1 - said + second!.probability);
  const right = Math.max(rightShare(said, knots), least);
  const rest = (1 - right) / (1 - said);
  const names = eachName((name) => (name === first!.name ? right : opinion.names[name] * rest));
  return { names, bare: opinion.bare * rest };
}

/**
 * Calibrated probabilities from a ladder of qualities: tempered, capped by every better quality, capped by what was lost
 * (0 to 1), made honest. As the last step keeps the order of sureness, a reading that lost more has a lower ceiling.
 */
export const calibratedOpinion = (ladder: readonly Float64Array[], lost: number): Opinion =>
  honest(capped(opinionOf(ladder, CALIBRATION.temperature), 1 - lost));

/**
 * The names that cannot be excluded: class-conditional split conformal prediction (Vovk, Gammerman, Shafer 2005,
 * chapter 4; Sadinle, Lei, Wasserman, JASA 2019), the classes being name and quality. Thresholds come from held-out
 * simulated readings. Where the quality is not one reading's own, the lower threshold of both is taken.
 */
export function conformalSet(candidates: readonly ColorCandidate[], quality?: Quality): ColorName[] {
  const { clear, poor } = CALIBRATION.threshold;
  const atLeast = (name: ColorName): number =>
    quality ? CALIBRATION.threshold[quality][name] : Math.min(clear[name], poor[name]);
  const names = candidates.filter((c) => c.probability >= atLeast(c.name)).map((c) => c.name);
  const best = candidates[0]!.name;
  return names.includes(best) ? names : [best, ...names];
}
