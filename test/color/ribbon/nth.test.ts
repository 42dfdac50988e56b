import { describe, expect, it } from 'vitest';
import { nth } from '../../../src/color/ribbon/nth';
import { quantile, unsortedQuantile } from '../../../src/color/ribbon/samples';
import { seeded } from '../make-ribbon';

const random = seeded(11);
/** Lists of many lengths: spread values, few values that come again and again, rising, falling, all the same. */
const lists = [1, 2, 3, 7, 64, 501].flatMap((length) =>
  [() => random(), () => Math.floor(4 * random()), (k: number) => k, (k: number) => -k, () => 1].map((value) =>
    Float64Array.from({ length }, (_, k) => value(k)),
  ),
);

describe('the value at a place among many', () => {
  it('is that of the sorted list, at every place', () => {
    for (const list of lists) {
      const sorted = list.slice().sort();
      const found = Float64Array.from(sorted, (_, k) => nth(list.slice(), k)!);
      expect(found).toEqual(sorted);
    }
  });

  it('can be asked for again of the same list', () => {
    for (const list of lists) {
      const [sorted, again] = [list.slice().sort(), list.slice()];
      for (const q of [0.5, 0.05, 0.95, 0, 1]) expect(unsortedQuantile(again, q)).toBe(quantile(sorted, q));
    }
  });

  it('twin: is not that of the list as it stands', () => {
    const list = lists.find((l) => l.length === 501)!;
    expect(nth(list.slice(), 250)).not.toBe(list[250]);
  });

  it('of nothing, nothing', () => {
    expect(nth(new Float64Array(0), 0)).toBeUndefined();
    expect(unsortedQuantile(new Float64Array(0), 0.5)).toBe(0);
  });
});
