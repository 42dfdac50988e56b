import { describe, expect, it } from 'vitest';
import type { Role } from '../../src/flow';
import { type BandPlace, type BandRange, expectedVoltage, meterError } from '../../src/verify';
import published from '../published/nominal-voltages.json';
import { METER } from './sim/probe';

/** A meter without error, so that the band is the rule's own. */
const EXACT = { ...METER, accuracyPercent: 0, accuracyVolts: 0 };

const bandOf = (row: (typeof published.bands)[number], shift = 0): [number, number] => {
  const options = { place: row.place as BandPlace, range: row.range as BandRange, meter: EXACT };
  const [a, b] = row.between as [Role, Role];
  const found = expectedVoltage(row.system, a, b, options);
  return [(found?.low ?? Number.NaN) * (1 + shift), (found?.high ?? Number.NaN) * (1 + shift)];
};

/** Published limits are rounded to the volt; COMAR writes 219 and 197 where 207.85 makes 218.2 and 197.5. */
const ROUNDING = 0.6;
const agrees = (row: (typeof published.bands)[number], shift = 0): boolean => {
  const [low, high] = bandOf(row, shift);
  return Math.abs(low - row.low) <= ROUNDING && Math.abs(high - row.high) <= ROUNDING;
};

describe('bands', () => {
  const read = published.bands.filter((row) => row.status === 'read');
  const remembered = published.bands.filter((row) => row.status !== 'read');

  it.each(read)('$rule $low to $high V (read)', (row) => {
    expect(agrees(row)).toBe(true);
  });

  it.each(remembered)('$rule row $row range $range $place: $low to $high V (from memory)', (row) => {
    expect(agrees(row)).toBe(true);
  });

  it('rejects the same rows when every limit is one percent off', () => {
    // Twin: the check must be sharp enough to notice one percent on every row.
    expect(published.bands.filter((row) => agrees(row, 0.01))).toEqual([]);
  });

  it('widens by the error of the meter and by nothing else', () => {
    const options = { place: 'service', range: 'A' } as const;
    const bare = expectedVoltage('us-208y120', 'phase A', 'ground', { ...options, meter: EXACT });
    const met = expectedVoltage('us-208y120', 'phase A', 'ground', { ...options, meter: METER });
    expect(met?.low).toBeCloseTo((bare?.low ?? 0) - meterError(METER, bare?.low ?? 0), 9);
    expect(met?.high).toBeCloseTo((bare?.high ?? 0) + meterError(METER, bare?.high ?? 0), 9);
  });

  it('keeps the widest window of a line above the highest coupled voltage that was read of', () => {
    // Coupled voltage: up to 85 % of the line voltage (read). The widest band must not reach below what it can be at
    // nominal supply by more than the meter's error; that is why a loaded reading is required besides.
    const low = expectedVoltage('us-208y120', 'phase A', 'grounded conductor')?.low ?? 0;
    expect(low).toBeLessThan(120 * published.ghost.shareOfLiveUpTo + 1);
  });
});
