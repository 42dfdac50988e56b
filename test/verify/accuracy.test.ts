import { describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { judge, type Meter, stops } from '../../src/verify';
import { mapOf, WYE_208 } from './fixtures';
import { Chance } from './sim/chance';
import { asClaimed } from './sim/honest';
import { METER } from './sim/probe';

const MAP = mapOf(WYE_208);
const meter = (accuracyPercent: number, accuracyVolts: number): Meter => ({
  ...METER,
  accuracyPercent,
  accuracyVolts,
});
/** From a bench instrument to one that the stops refuse. */
const WIDENING = [meter(0.3, 0.1), meter(1.5, 0.5), meter(1.5, 2), meter(2.5, 2), meter(3, 3), meter(8, 10)];

const metered = (readings: readonly Reading[], of: Meter): string[] =>
  judge(MAP, readings, { meter: of })
    .conductors.filter((c) => c.standing === 'metered')
    .map((c) => c.conductor);

/** Honest readings, shifted together and one by one, so that some stand near the ends of their bands. */
function shifted(honest: readonly Reading[], chance: Chance): Reading[] {
  const level = chance.between(0.86, 1.08);
  const spread = chance.pick([0, 0.06]);
  return honest.map((r) =>
    typeof r.value === 'number' && r.function !== 'continuity'
      ? { ...r, value: Math.round(10 * r.value * level * (1 + chance.between(-spread, spread))) / 10 }
      : r,
  );
}

describe('a stated accuracy', () => {
  it('widened never turns a conductor metered that was not: 16 sets of readings, six meters', () => {
    const honest = asClaimed(MAP, { meter: METER });
    let [whole, part] = [0, 0];
    for (let k = 0; k < 16; k++) {
      const readings = shifted(honest, new Chance(k + 1));
      const sets = WIDENING.map((m) => metered(readings, m));
      sets.forEach((wider, i) => {
        const finer = sets[i - 1];
        if (finer) expect(wider.filter((id) => !finer.includes(id))).toEqual([]);
      });
      if (sets[0]!.length === MAP.assignments.length) whole++;
      else part++;
    }
    // Both must happen, or nothing was asked.
    expect(Math.min(whole, part)).toBeGreaterThan(2);
  }, 60_000);

  it('twin: a band that grew with it would have: 99 V on every line is below the usual band, not below a wide one', () => {
    const honest = asClaimed(MAP, { meter: METER });
    const low = honest.map((r) =>
      typeof r.value === 'number' && r.value > 50 && r.function !== 'continuity' ? { ...r, value: r.value * 0.83 } : r,
    );
    expect(metered(honest, meter(8, 10)).length).toBeGreaterThan(0);
    expect(metered(low, meter(8, 10))).toEqual([]);
  });

  it('is weighed: what a fine meter makes of a low reading, a coarse one leaves more open', () => {
    const honest = asClaimed(MAP, { meter: METER });
    const line = honest.find((r) => r.function.startsWith('AC') && typeof r.value === 'number' && r.value > 100)!;
    const readings = [{ ...line, value: 96 }];
    const likeliest = (of: Meter): number =>
      Math.max(...judge(MAP, readings, { meter: of }).map.assignments.map((a) => a.roles[0]?.probability ?? 0));
    expect(likeliest(meter(3, 3))).not.toBeCloseTo(likeliest(meter(1.5, 0.5)), 6);
  });

  it('too coarse to tell 208 V from 240 V stops the work', () => {
    const codes = (of: Meter) => stops(MAP, { meter: of }).map((m) => m.code);
    expect(codes(meter(3, 3))).toEqual([]);
    expect(codes(meter(3.1, 0.5))).toEqual(['verify.stop.accuracy']);
    expect(codes(meter(1, 4))).toEqual(['verify.stop.accuracy']);
  });
});
