import { describe, expect, it } from 'vitest';
import { descending } from '../../src/identify/infer/descending';
import { seeded } from '../hard/random';

/** Numbers with as many ties as `levels` makes of them. */
const numbers = (count: number, levels: number, seed: number): Float64Array => {
  const next = seeded(seed);
  return Float64Array.from({ length: count }, () => Math.floor(next() * levels));
};
const sorted = (values: Float64Array): number[] => [...values.keys()].sort((a, b) => values[b]! - values[a]! || a - b);

describe('places from the greatest value to the smallest', () => {
  it.each([0, 1, 2, 3, 10, 333].flatMap((count) => [1, 4, 1e6].map((levels) => ({ count, levels }))))(
    'of $count values on $levels levels are in the order that sorting gives, ties by their place',
    ({ count, levels }) => {
      const values = numbers(count, levels, count + levels);
      expect([...descending(values)]).toEqual(sorted(values));
    },
  );

  it('begin with the same places when no more are asked for, and leave the values alone', () => {
    const values = numbers(100, 9, 3);
    const before = values.slice();
    const places = descending(values);
    expect([0, 1, 2].map(() => places.next().value)).toEqual(sorted(values).slice(0, 3));
    expect(values).toEqual(before);
  });

  it('are not in the order of the places (twin)', () => {
    const values = numbers(100, 9, 3);
    expect([...descending(values)]).not.toEqual([...values.keys()]);
  });
});
