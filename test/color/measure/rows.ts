import { honest, ranked } from '../../../src/color/naming/calibrate';
import { capped, opinionOf } from '../../../src/color/naming/opinion';
import type { Quality } from '../../../src/color/naming/quality';
import type { ColorName } from '../../../src/flow';
import type { Case } from './cases';
import type { Calibration } from './fit';

/** What was said of one reading under a calibration. */
export interface Row {
  readonly truth: ColorName;
  readonly best: ColorName;
  readonly p: number;
  readonly set: readonly ColorName[];
  readonly quality: Quality;
  /** Number of its photo. */
  readonly photo: number;
}

export function rowOf({ ladder, lost, truth, quality, photo }: Case, c: Calibration): Row {
  const all = ranked(honest(capped(opinionOf(ladder, c.temperature), 1 - lost), c.reliability).names);
  const { name: best, probability: p } = all[0]!;
  const kept = all.filter((one) => one.name === best || one.probability >= c.threshold[quality][one.name]);
  return { truth, best, p, set: kept.map((one) => one.name), quality, photo };
}

/** One bin of the reliability diagram. */
export interface Bin {
  readonly said: number;
  readonly right: number;
  readonly count: number;
}

/** Ten bins of equal width, the empty ones left out. */
export function binsOf(rows: readonly Row[]): Bin[] {
  return Array.from({ length: 10 }, (_, b) => rows.filter((r) => Math.min(9, Math.floor(r.p * 10)) === b))
    .filter((bin) => bin.length > 0)
    .map((bin) => ({
      said: bin.reduce((sum, r) => sum + r.p, 0) / bin.length,
      right: bin.filter((r) => r.best === r.truth).length / bin.length,
      count: bin.length,
    }));
}

/** Expected calibration error, 0 to 1 (Naeini, Cooper, Hauskrecht, AAAI 2015). */
export const eceOf = (rows: readonly Row[]): number =>
  binsOf(rows).reduce((sum, b) => sum + (b.count / rows.length) * Math.abs(b.said - b.right), 0);
