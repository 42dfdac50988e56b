import { COLOR_NAMES, type ColorCandidate, type ColorName, type CombinedColor } from '../../flow';
import { PALETTE_DATA } from '../palette/palette-data';
import { conformalSet, ranked } from './calibrate';
import { eachName, type Names, probabilityOf } from './names';

/**
 * Photos of one conductor share its age, its dirt and mostly their camera, so their errors go together: correlation of
 * the log likelihoods of two photos. Assumed.
 */
const SHARED = 0.5;
/** What is left for a name that a reading does not list, and never less than this: no photo excludes for good. */
const FLOOR = 0.004;
/** Photos contradict each other when the overlap of two distributions is below this. Assumed. */
const OVERLAP = 0.1;

const notExcluded = (reading: readonly ColorCandidate[], name: ColorName): number =>
  Math.max(FLOOR, probabilityOf(reading, name));

const overlapOf = (x: readonly ColorCandidate[], y: readonly ColorCandidate[]): number =>
  COLOR_NAMES.reduce((sum, name) => sum + Math.min(notExcluded(x, name), notExcluded(y, name)), 0);

function normalized(weigh: (name: ColorName) => number): Names {
  const weights = eachName(weigh);
  const total = COLOR_NAMES.reduce((sum, name) => sum + weights[name], 0);
  return eachName((name) => weights[name] / total);
}

/**
 * One distribution from the calibrated readings of several photos that the user says show one conductor.
 *
 * Takes each photo's candidates (names not listed count as nearly excluded). Readings that agree sharpen each other by
 * n / (1 + (n - 1) SHARED) independent photos' worth; readings that contradict each other are averaged instead, which
 * is never surer than the surest of them. Order does not matter; one reading comes back as it was.
 * @throws RangeError without a reading.
 */
export function combineColors(readings: readonly (readonly ColorCandidate[])[]): CombinedColor {
  const n = readings.length;
  if (n === 0) throw new RangeError('no reading to combine');
  const contradicting = readings.some((x, i) => readings.slice(i + 1).some((y) => overlapOf(x, y) < OVERLAP));
  const weight = 1 / (1 + (n - 1) * SHARED);
  const product = (name: ColorName): number => {
    const prior = Math.log(PALETTE_DATA[name].prior);
    return Math.exp(prior + weight * readings.reduce((sum, r) => sum + Math.log(notExcluded(r, name)) - prior, 0));
  };
  const average = (name: ColorName): number => readings.reduce((sum, r) => sum + notExcluded(r, name), 0) / n;
  const all = ranked(normalized(contradicting ? average : product));
  return {
    best: all[0]!.name,
    confidence: all[0]!.probability,
    candidates: all.filter((c) => c.probability >= 0.005),
    set: conformalSet(all),
    contradicting,
  };
}
