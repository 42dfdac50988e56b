import { honest, ranked } from '../../../src/color/naming/calibrate';
import type { CALIBRATION } from '../../../src/color/naming/calibration-data';
import { capped, opinionOf } from '../../../src/color/naming/opinion';
import { QUALITIES, type Quality } from '../../../src/color/naming/quality';
import { COLOR_NAMES, type ColorName } from '../../../src/flow';
import type { Case } from './cases';

export type Calibration = typeof CALIBRATION;
type Knots = Calibration['reliability'];

/** Share of right ones among readings with confidence 0.9 and more: a confident wrong answer is the worst one. */
const MUST_BE_RIGHT = 0.975;
/** Bins of equal size for the isotonic regression. */
const BINS = 16;
/** One reading in twenty may lose its true name. */
const LOST = 0.05;

/** What naming would say before it is made honest. */
const saidBefore = (c: Case, temperature: number) => capped(opinionOf(c.ladder, temperature), 1 - c.lost);

function nll(cases: readonly Case[], temperature: number): number {
  const loss = (c: Case): number => -Math.log(Math.max(1e-9, saidBefore(c, temperature).names[c.truth]));
  return cases.reduce((sum, c) => sum + loss(c), 0) / cases.length;
}

interface Said {
  readonly p: number;
  readonly right: boolean;
}

const saidOf = (cases: readonly Case[], temperature: number): Said[] =>
  cases.map((c) => {
    const best = ranked(saidBefore(c, temperature).names)[0]!;
    return { p: best.probability, right: best.name === c.truth };
  });

function sureRight(cases: readonly Case[], temperature: number): number {
  const sure = saidOf(cases, temperature).filter((s) => s.p >= 0.9);
  return sure.length === 0 ? 1 : sure.filter((s) => s.right).length / sure.length;
}

/** The likeliest temperature, then as much softer as it takes for the sure to be right. */
function temperatureOf(cases: readonly Case[]): number {
  let best = 1;
  let loss = nll(cases, best);
  for (let t = 0.6; t <= 1.6; t += 0.1) {
    const found = nll(cases, t);
    if (found < loss) [best, loss] = [t, found];
  }
  while (best < 2 && sureRight(cases, best) < MUST_BE_RIGHT) best += 0.05;
  return Number(best.toFixed(2));
}

/** Isotonic regression of being right on the probability said: bins of equal size, neighbors out of order pooled. */
export function reliabilityOf(said: readonly Said[]): Knots {
  const sorted = [...said].sort((x, y) => x.p - y.p);
  const size = Math.max(1, Math.ceil(sorted.length / BINS));
  const pools: { p: number; right: number; n: number }[] = [];
  for (let at = 0; at < sorted.length; at += size) {
    const bin = sorted.slice(at, at + size);
    let pool = {
      p: bin.reduce((sum, s) => sum + s.p, 0),
      right: bin.filter((s) => s.right).length,
      n: bin.length,
    };
    for (let last = pools.at(-1); last && last.right / last.n >= pool.right / pool.n; last = pools.at(-1)) {
      pools.pop();
      pool = { p: pool.p + last.p, right: pool.right + last.right, n: pool.n + last.n };
    }
    pools.push(pool);
  }
  // Never surer than one more miss than was seen would allow (rule of succession).
  const share = ({ right, n }: { right: number; n: number }): number => Math.min(right / n, (right + 1) / (n + 2));
  const knots = pools.map((pool) => [Number((pool.p / pool.n).toFixed(4)), Number(share(pool).toFixed(4))] as const);
  return [[0, 0], ...knots, [1, knots.at(-1)![1]]];
}

/** The floor(0.05 (n + 1))-th smallest: split conformal prediction with its small-sample correction. */
export function thresholdOf(probabilities: readonly number[]): number {
  const sorted = [...probabilities].sort((a, b) => a - b);
  const k = Math.floor(LOST * (sorted.length + 1));
  return k < 1 ? 0 : Number(sorted[k - 1]!.toFixed(4));
}

/** Temperature, reliability and thresholds from simulated readings. */
export function fitCalibration(cases: readonly Case[]): Calibration {
  const temperature = temperatureOf(cases);
  const reliability = reliabilityOf(saidOf(cases, temperature));
  const thresholds = (quality: Quality): Record<ColorName, number> => {
    const entries = COLOR_NAMES.map((name): [ColorName, number] => {
      const own = cases.filter((c) => c.truth === name && c.quality === quality);
      return [name, thresholdOf(own.map((c) => honest(saidBefore(c, temperature), reliability).names[name]))];
    });
    // Not simulated as a case of its own: assumed, and low, because a protective conductor must not fall out of a set.
    return { ...(Object.fromEntries(entries) as Record<ColorName, number>), 'green-yellow': 0.1 };
  };
  const [clear, poor] = QUALITIES.map(thresholds) as [Record<ColorName, number>, Record<ColorName, number>];
  return { temperature, reliability, threshold: { clear, poor } };
}
