import { describe, expect, it } from 'vitest';
import { conformalSet, honest, ranked } from '../../src/color/naming/calibrate';
import { CALIBRATION } from '../../src/color/naming/calibration-data';
import type { Opinion } from '../../src/color/naming/opinion';
import { QUALITIES, qualityOf } from '../../src/color/naming/quality';
import { COLOR_NAMES, type ColorName } from '../../src/flow';
import { reliabilityOf, thresholdOf } from './measure/fit';
import { binsOf, eceOf, type Row } from './measure/rows';

/** An opinion with `p` on the first name, `q` on the second, and what is left shared evenly. */
function opinion(p: number, q: number, bare = 0): Opinion {
  const rest = (1 - p - q - bare) / (COLOR_NAMES.length - 2);
  const of = (k: number): number => (k === 0 ? p : k === 1 ? q : rest);
  return { names: Object.fromEntries(COLOR_NAMES.map((n, k) => [n, of(k)])) as Record<ColorName, number>, bare };
}
const surest = (o: Opinion): number => ranked(o.names)[0]!.probability;
const total = (o: Opinion): number => COLOR_NAMES.reduce((sum, n) => sum + o.names[n], o.bare);
const rises = (values: readonly number[]): boolean => values.every((v, k) => k === 0 || v >= values[k - 1]!);

describe('honest probabilities', () => {
  it('keep their order: what was surer stays surer', () => {
    const said = Array.from({ length: 60 }, (_, k) => 0.35 + k * 0.0105);
    expect(rises(said.map((p) => surest(honest(opinion(p, (1 - p) / 2)))))).toBe(true);
  });
  it('twin: knots that fall would break that order', () => {
    const falling = [
      [0, 0],
      [0.5, 0.9],
      [1, 0.6],
    ] as const;
    const said = [0.5, 0.7, 0.9];
    expect(rises(said.map((p) => surest(honest(opinion(p, 0.05), falling))))).toBe(false);
  });
  it('sum to what they summed to, with bare metal, and leave the best name best', () => {
    for (const o of [opinion(0.9, 0.05), opinion(0.4, 0.39, 0.1), opinion(0.62, 0.3, 0.05)]) {
      const after = honest(o);
      expect(total(after)).toBeCloseTo(1, 9);
      expect(ranked(after.names)[0]!.name).toBe(ranked(o.names)[0]!.name);
    }
  });
  it('follow straight lines between the knots, and stay level beyond the last', () => {
    const knots = [
      [0.4, 0.5],
      [0.8, 0.7],
    ] as const;
    // By hand: level, on the first knot, halfway, on the last, level.
    for (const [said, right] of [
      [0.3, 0.5],
      [0.4, 0.5],
      [0.6, 0.6],
      [0.8, 0.7],
      [0.9, 0.7],
    ] as const)
      expect(surest(honest(opinion(said, 0.02), knots))).toBeCloseTo(right, 9);
  });
  it('leave what is certain, or nothing at all, as it is: there is nothing to share out', () => {
    for (const o of [opinion(1, 0), opinion(0, 0, 1)]) expect(honest(o)).toBe(o);
  });
  it('are never certain', () => {
    expect(Math.max(...CALIBRATION.reliability.map(([, right]) => right))).toBeLessThan(1);
    expect(rises(CALIBRATION.reliability.map(([, right]) => right))).toBe(true);
    expect(rises(CALIBRATION.reliability.map(([said]) => said))).toBe(true);
  });
});

describe('isotonic regression', () => {
  it('pools neighbors out of order: wrong, right, wrong, right gives none, half, half, and nearly all', () => {
    const said = [0.2, 0.4, 0.6, 0.8].map((p, k) => ({ p, right: k % 2 === 1 }));
    // Pool adjacent violators by hand: 0 | (1 + 0) / 2 | 1, the last as (1 + 1) / (1 + 2) by the rule of succession.
    expect(reliabilityOf(said)).toEqual([
      [0, 0],
      [0.2, 0],
      [0.5, 0.5],
      [0.8, 0.6667],
      [1, 0.6667],
    ]);
  });
});

describe('conformal sets', () => {
  it('small-sample correction: 19 readings are the fewest that may exclude anything at 95 %', () => {
    const ranks = (n: number): number[] => Array.from({ length: n }, (_, k) => (k + 1) / 100);
    expect(thresholdOf(ranks(18))).toBe(0);
    expect(thresholdOf(ranks(19))).toBe(0.01);
    expect(thresholdOf(ranks(39))).toBe(0.02);
  });
  it('hold the promise on exchangeable readings: 95 % or more on average (Vovk, Gammerman, Shafer 2005)', () => {
    let seed = 7;
    const random = (): number => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return seed / 2147483648;
    };
    let covered = 0;
    const rounds = 4000;
    for (let k = 0; k < rounds; k++) {
      const at = thresholdOf(Array.from({ length: 59 }, random));
      if (random() >= at) covered++;
    }
    expect(covered / rounds).toBeGreaterThan(0.94);
    expect(covered / rounds).toBeLessThan(0.97);
  });
  it('where the quality is not known the set is the larger of both', () => {
    for (const p of [0.5, 0.7, 0.9]) {
      const all = ranked(opinion(p, (1 - p) / 2).names);
      const safe = conformalSet(all);
      for (const quality of QUALITIES) expect(safe).toEqual(expect.arrayContaining(conformalSet(all, quality)));
    }
  });
  it('tells clear from poor by what is left open of the hue', () => {
    expect(qualityOf([0.0002, 0, 0, 0.0002, 0, 0.1])).toBe('clear');
    expect(qualityOf([0.004, 0, 0, 0.004, 0, 0.1])).toBe('poor');
  });
});

describe('expected calibration error', () => {
  const rows = (p: number, right: number, n: number): Row[] =>
    Array.from({ length: n }, (_, k) => ({
      truth: 'red',
      best: k < right ? 'red' : 'brown',
      p,
      set: ['red'],
      quality: 'clear',
      photo: k,
    }));
  it('is the gap between said and right, by weight: 80 said, 60 right in half of them and none in the other', () => {
    const all = [...rows(0.8, 6, 10), ...rows(0.25, 0, 10)];
    expect(binsOf(all).map((b) => b.count)).toEqual([10, 10]);
    expect(eceOf(all)).toBeCloseTo(0.5 * 0.2 + 0.5 * 0.25, 9);
  });
  it('twin: as often right as said has none', () => {
    expect(eceOf(rows(0.8, 8, 10))).toBeCloseTo(0, 9);
  });
});
