import { describe, expect, it } from 'vitest';
import { message, type Role } from '../../src/flow';
import { SYSTEMS } from '../../src/identify';
import { type BandPlace, type BandRange, expectedVoltage, meterError } from '../../src/verify';
import { LOCALES, say } from '../../src/words';
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

describe('names of bands', () => {
  const names = Object.values(SYSTEMS).flatMap((system) =>
    (['A', 'B'] as const).flatMap((range) =>
      (['service', 'utilization'] as const).flatMap((place) =>
        [...system.roles, 'ground' as const].flatMap((a) =>
          [...system.roles, 'ground' as const].flatMap(
            (b) => expectedVoltage(system.id, a, b, { range, place, meter: METER })?.band ?? [],
          ),
        ),
      ),
    ),
  );
  const gaps = (text: string) => /verify\.|[{}]|undefined/.test(text);

  it('are said whole in both languages', () => {
    expect(names.length).toBeGreaterThan(500);
    for (const locale of LOCALES) expect(names.map((name) => say(name, locale)).filter(gaps)).toEqual([]);
  });

  it('twin: a rule that the catalogue does not know is noticed', () => {
    expect(gaps(say(message('verify.band.one-range', { rule: 'verify.band.none', place: 'x' })))).toBe(true);
  });

  it('are Spanish in Spanish', () => {
    const band = expectedVoltage('us-208y120', 'phase A', 'phase B')?.band;
    expect(band && say(band, 'es')).toBe('ANSI C84.1 rango B, donde se usa');
    const zero = expectedVoltage('us-208y120', 'grounded conductor', 'ground')?.band;
    expect(zero && say(zero, 'es')).toBe('caída por carga de hasta 5 %');
  });
});

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
