import { describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { judge } from '../../src/verify';
import type { Belief } from '../../src/verify/agreement';
import { claimsOf } from '../../src/verify/claim';
import { modelsFor } from '../../src/verify/models';
import { bandOptions } from '../../src/verify/options';
import { neutralDrops, oneSupply, ratiosOf } from '../../src/verify/scale';
import { bar, ground, mapOf, on, pole, read, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };
const MAP = mapOf(WYE_208);
const belief = (): Belief => ({
  claims: new Map(claimsOf(MAP).map((c) => [c.conductor, c])),
  models: modelsFor(MAP),
  band: bandOptions(OPTIONS),
});
const LIFTED: Partial<Reading> = { function: 'continuity', condition: 'supply off, lifted' };

describe('volts that a neutral was lifted by', () => {
  const drops = (...readings: Reading[]) => Object.fromEntries(neutralDrops(readings, belief()));

  it('are the largest read between it and ground, whichever lead was where', () => {
    expect(drops(read(on('n'), ground, 2), read(ground, on('n'), 3), read(on('n'), ground, 1))).toEqual({ n: 3 });
  });

  it('are none of a line, of a pair of conductors, of another function, of no number, nor of what contradicts', () => {
    expect(drops(read(on('a'), ground, 120))).toEqual({});
    expect(drops(read(on('n'), on('g'), 2))).toEqual({});
    expect(drops(read(on('n'), on('a'), 120))).toEqual({});
    expect(drops(read(on('n'), bar, 2))).toEqual({});
    expect(drops(read(on('n'), ground, 'OL', LIFTED))).toEqual({});
    expect(drops(read(on('n'), ground, 2, { function: 'DC volts' }))).toEqual({});
    expect(drops(read(on('n'), ground, 'OL'))).toEqual({});
    expect(drops(read(on('n'), ground, 90))).toEqual({});
    expect(drops(read(bar, ground, 2))).toEqual({});
  });
});

describe('readings as fractions of nominal', () => {
  const ratios = (...readings: Reading[]) => ratiosOf(readings, belief());

  it('are the value over 120 V or 208 V (208Y/120)', () => {
    const [one, two] = ratios(read(on('a'), on('n'), 114), read(on('a'), on('b'), 114 * Math.sqrt(3)));
    expect(one!.value).toBeCloseTo(0.95, 9);
    expect(two!.value).toBeCloseTo(0.95, 9);
    expect(one!.slack).toBe(0);
  });

  it('are none of zero pairs, of ohms, of turning, of no number and of what nothing is expected of', () => {
    expect(ratios(read(on('n'), on('g'), 0.3))).toEqual([]);
    expect(ratios(read(on('a'), pole('us-208y120', 'phase A'), 0.2))).toEqual([]);
    expect(ratios(read(on('g'), ground, 0.2, LIFTED))).toEqual([]);
    expect(ratios(read(on('n'), ground, 'OL', LIFTED))).toEqual([]);
    expect(ratios(read(on('a'), on('b'), 'ABC', { function: 'phase rotation', third: on('c') }))).toEqual([]);
    expect(ratios(read(on('a'), on('n'), 'OL'))).toEqual([]);
    expect(ratios(read(on('a'), on('nobody'), 120))).toEqual([]);
  });

  it('carry what the neutral was lifted by as slack', () => {
    const [one, other] = ratiosOf(
      [read(on('a'), on('n'), 117), read(on('a'), on('b'), 206)],
      belief(),
      new Map([['n', 3]]),
    );
    expect(one!.slack).toBeCloseTo(3 / 120, 9);
    expect(other!.slack).toBe(0);
  });

  it('belong to one supply within 3 % unbalance each way and the meter, not beyond; slack brings them nearer', () => {
    const { accuracyPercent } = bandOptions(OPTIONS).meter;
    const spread = 2 * (0.03 + accuracyPercent / 100);
    const pair = (gap: number, slack = 0) => [
      { value: 1 - gap / 2, slack },
      { value: 1 + gap / 2, slack: 0 },
    ];
    expect(oneSupply(pair(spread * 0.99), belief())).toBe(true);
    expect(oneSupply(pair(spread * 1.01), belief())).toBe(false);
    expect(oneSupply(pair(spread * 1.2, spread * 0.3), belief())).toBe(true);
    expect(oneSupply([{ value: 3, slack: 0 }], belief())).toBe(true);
  });
});

describe('systems of the map after readings', () => {
  it('are never likelier than that any conductor is theirs, were all independent, nor less likely than for one alone', () => {
    const { map } = judge(MAP, [read(on('a'), ground, 120)], OPTIONS);
    expect(map.systems.length).toBeGreaterThan(0);
    for (const { system, probability } of map.systems) {
      const own = map.assignments.map(({ roles }) =>
        roles.filter((r) => r.system === system).reduce((sum, r) => sum + r.probability, 0),
      );
      const none = own.reduce((product, p) => product * (1 - Math.min(1, p)), 1);
      // Roles below 0.0005 are not listed with their conductor, but count for the system: a few of them at most.
      expect(probability).toBeLessThanOrEqual(1 - none + 0.002);
      const photo = MAP.systems.find((s) => s.system === system)?.probability ?? 0;
      expect(probability).toBeGreaterThanOrEqual(Math.min(photo, Math.max(...own)) - 1e-9);
    }
    const odds = map.systems.map((s) => s.probability);
    expect([...odds].sort((p, q) => q - p)).toEqual(odds);
  });
});
