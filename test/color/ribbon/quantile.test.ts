import { describe, expect, it } from 'vitest';
import { quantile, unsortedQuantile } from '../../../src/color/ribbon/samples';
import { seeded } from '../make-ribbon';

const random = seeded(11);
/** Lists of many lengths: spread values, few values that come again and again, rising, falling, all the same. */
const lists = [1, 2, 3, 7, 64, 501].flatMap((length) =>
  [() => random(), () => Math.floor(4 * random()), (k: number) => k, (k: number) => -k, () => 1].map((value) =>
    Float64Array.from({ length }, (_, k) => value(k)),
  ),
);

describe('a quantile of unsorted values', () => {
  it('is that of the sorted ones, and can be asked for again', () => {
    for (const list of lists) {
      const [sorted, again] = [list.slice().sort(), list.slice()];
      for (const q of [0.5, 0.05, 0.95, 0, 1]) expect(unsortedQuantile(again, q)).toBe(quantile(sorted, q));
    }
  });

  it('twin: the middle value of the list as it stands is not the median', () => {
    const list = lists.find((l) => l.length === 501)!;
    expect(unsortedQuantile(list.slice(), 0.5)).not.toBe(list[250]);
  });

  it('of nothing is 0', () => {
    expect(unsortedQuantile(new Float64Array(0), 0.5)).toBe(0);
  });
});
