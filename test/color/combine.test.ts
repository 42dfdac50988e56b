import { describe, expect, it } from 'vitest';
import { combineColors, judgeComparison } from '../../src/color';
import type { ColorCandidate, ColorName } from '../../src/flow';

const reading = (shares: Partial<Record<ColorName, number>>): ColorCandidate[] =>
  (Object.entries(shares) as [ColorName, number][])
    .map(([name, probability]) => ({ name, probability }))
    .sort((a, b) => b.probability - a.probability);

const GRAY_OR_WHITE = reading({ gray: 0.55, white: 0.45 });
const GRAY = reading({ gray: 0.8, white: 0.15, black: 0.05 });
const RED = reading({ red: 0.97, brown: 0.03 });

describe('several photos of one conductor', () => {
  it('one photo says what it said', () => {
    const { best, confidence, contradicting } = combineColors([GRAY]);
    expect(best).toBe('gray');
    expect(confidence).toBeCloseTo(0.8, 1);
    expect(contradicting).toBe(false);
  });
  it('photos that agree are surer together, but less than independent ones would be', () => {
    const { confidence } = combineColors([GRAY, GRAY_OR_WHITE]);
    expect(confidence).toBeGreaterThan(0.7);
    // Bayes' rule with independent photos and even priors: 0.8 x 0.55 against 0.15 x 0.45.
    expect(confidence).toBeLessThan((0.8 * 0.55) / (0.8 * 0.55 + 0.15 * 0.45));
    expect(combineColors([GRAY, GRAY, GRAY]).confidence).toBeGreaterThan(0.8);
  });
  it('twin: photos that contradict each other are never surer than the surer one, and say so', () => {
    const { confidence, contradicting, set } = combineColors([GRAY, RED]);
    expect(contradicting).toBe(true);
    expect(confidence).toBeLessThan(0.8);
    expect(set).toEqual(expect.arrayContaining(['gray', 'red']));
  });
  it('does not depend on the order, and its shares never exceed one', () => {
    const forward = combineColors([GRAY, GRAY_OR_WHITE, RED]);
    const backward = combineColors([RED, GRAY_OR_WHITE, GRAY]);
    forward.candidates.forEach((c, k) => {
      expect(backward.candidates[k]!.name).toBe(c.name);
      expect(backward.candidates[k]!.probability).toBeCloseTo(c.probability, 12);
    });
    expect(forward.candidates.reduce((sum, c) => sum + c.probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
  });
  it('refuses to answer from nothing', () => {
    expect(() => combineColors([])).toThrow(RangeError);
  });
});

describe('a comparison in words', () => {
  const codeAt = (log10Ratio: number) => judgeComparison({ log10Ratio }).code;
  it('tells a side only when the ratio does', () => {
    expect(codeAt(0.2)).toBe('color.compare.open');
    expect(codeAt(-0.2)).toBe('color.compare.open');
    expect(codeAt(1)).toBe('color.compare.same');
    expect(codeAt(-1)).toBe('color.compare.other');
    expect(codeAt(-4)).toBe('color.compare.other-strong');
  });
  it('counts how many times better, and never claims more than 100', () => {
    expect(judgeComparison({ log10Ratio: 1 }).values).toEqual({ times: 10 });
    expect(judgeComparison({ log10Ratio: -9 }).values).toEqual({ times: 100 });
  });
});
