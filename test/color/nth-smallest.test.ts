import { describe, expect, it } from 'vitest';
import { nthSmallest } from '../../src/color';
import { seeded } from '../hard/random';

/** Numbers with as many ties as `levels` makes of them. */
const numbers = (count: number, levels: number, seed: number): Float64Array => {
  const next = seeded(seed);
  return Float64Array.from({ length: count }, () => Math.floor(next() * levels) - levels / 2);
};

const CASES = [1, 2, 3, 7, 64, 501].flatMap((count) => [1, 2, 5, 1e6].map((levels) => ({ count, levels })));

describe('the nth smallest', () => {
  it.each(CASES)('of $count numbers on $levels levels is where sorting puts it, for every n', ({ count, levels }) => {
    const values = numbers(count, levels, count + levels);
    const sorted = values.slice().sort();
    for (let n = 0; n < count; n++) expect(nthSmallest(values.slice(), n)).toBe(sorted[n]);
  });

  it('is the same for rising, falling and single precision numbers', () => {
    const rising = Float32Array.from({ length: 99 }, (_, k) => k / 7);
    for (let n = 0; n < 99; n++) {
      expect(nthSmallest(rising.slice(), n)).toBe(rising[n]);
      expect(nthSmallest(rising.slice().reverse(), n)).toBe(rising[n]);
    }
  });

  it('leaves the numbers what they are, in another order', () => {
    const values = numbers(200, 40, 5);
    const moved = values.slice();
    nthSmallest(moved, 77);
    expect(moved.sort()).toEqual(values.slice().sort());
  });

  it('is undefined where there is no such place', () => {
    expect(nthSmallest(new Float64Array(0), -1)).toBeUndefined();
    expect(nthSmallest(Float64Array.of(1), 1)).toBeUndefined();
  });

  it('is not what happens to lie there (twin)', () => {
    const values = numbers(501, 1e6, 9);
    expect(nthSmallest(values.slice(), 250)).not.toBe(values[250]);
  });
});
