import { describe, expect, it } from 'vitest';
import { hiddenStripe } from '../../../src/color/ribbon/hidden-stripe';
import { seeded } from '../make-ribbon';

/**
 * Brute force: lay stripes on cylinders, look at one side, count what stays unseen. Same assumptions as the formula
 * (6 % striped, half of them along, one turn in 120 diameters, others spaced 5 diameters on average), no formula.
 */
function simulated(diameters: number, missed: number): number {
  const random = seeded(11);
  let unnoticed = 0;
  let plain = 0;
  for (let n = 0; n < 200_000; n++) {
    if (random() >= 0.06) {
      plain++;
      continue;
    }
    let seen: boolean;
    if (random() < 0.5) {
      const start = random();
      const sweep = diameters / 120;
      // Degrees of the circle looked at, widened by the stripe's own tenth and by how far it turns.
      seen = start < 150 / 360 + 0.1 + sweep;
    } else seen = -Math.log(1 - random() + 1e-12) * 5 < diameters;
    if (!seen || random() < missed) unnoticed++;
  }
  return unnoticed / (unnoticed + plain);
}

describe('a stripe cannot be excluded on the hidden side', () => {
  it.each([
    [2, 0],
    [10, 0.1],
    [40, 0.3],
    [90, 0],
  ])('%d diameters seen, %d overlooked: as counted on 200,000 cylinders', (diameters, missed) => {
    expect(hiddenStripe(diameters, missed)).toBeCloseTo(simulated(diameters, missed), 2.5);
  });
  it('twin: with half as many striped ones the count would not fit', () => {
    expect(Math.abs(hiddenStripe(2, 0) / 2 - simulated(2, 0))).toBeGreaterThan(0.01);
  });
  it('falls with length and rises with what is overlooked; never 0, never above the prior', () => {
    let last = 1;
    for (const d of [0, 1, 5, 20, 60, 120]) {
      const p = hiddenStripe(d, 0.1);
      expect(p).toBeLessThanOrEqual(last);
      expect(p).toBeGreaterThan(0);
      expect(hiddenStripe(d, 0.6)).toBeGreaterThan(p);
      last = p;
    }
    expect(hiddenStripe(0, 1)).toBeCloseTo(0.06, 6);
  });
});
