import { describe, expect, it } from 'vitest';
import { bestLogLikelihood, logLikelihood, type Sight, sightKey, slips } from '../../src/verify/likelihood';
import { ground, on, read } from './fixtures';
import { METER } from './sim/probe';

describe('a slip of the finger', () => {
  it('moves the decimal point or exchanges two neighbors', () => {
    expect(slips(120)).toEqual([12, 1200, 210, 102]);
    expect(slips(-208)).toEqual([-20.8, -2080, 28, 280]);
    expect(slips(7)).toEqual([0.7, 70]);
  });

  it('makes 210 V likelier where 120 V stands than another wrong number is', () => {
    const sight: Sight = { kind: 'volts', nominal: 120, base: 120, loose: false, side: 208, blur: 0 };
    const log = (value: number, id: number): number =>
      Math.log(
        [...logLikelihood(read(on('a'), ground, value), sight, id, METER)].reduce((sum, v) => sum + Math.exp(v), 0),
      );
    expect(log(210, 9_200_001)).toBeGreaterThan(log(160, 9_200_002));
    expect(log(12, 9_200_003)).toBeGreaterThan(log(33, 9_200_004));
    expect(log(120, 9_200_005)).toBeGreaterThan(log(210, 9_200_006));
  });
});

describe('the bound on what any sight gives a reading', () => {
  it('is 0 for what is said in words, and falls with the volts: a bell of a percent is wider there', () => {
    expect(bestLogLikelihood(read(on('a'), ground, 0.2, { function: 'continuity' }), METER)).toBe(0);
    expect(bestLogLikelihood(read(on('a'), on('b'), 'ABC', { function: 'phase rotation' }), METER)).toBe(0);
    expect(bestLogLikelihood(read(on('a'), ground, 5, { function: 'continuity' }), METER)).toBe(0);
    const at = (value: number): number => bestLogLikelihood(read(on('a'), ground, value), METER);
    expect(at(480)).toBeLessThan(at(120));
    expect(at(-120)).toBe(at(120));
    expect(at(0)).toBeGreaterThan(at(120));
    // Never less than what the sight of exactly that value gives.
    const sight: Sight = { kind: 'volts', nominal: 120, base: 120, loose: false, side: 208, blur: 0 };
    for (const v of logLikelihood(read(on('a'), ground, 120), sight, 9_200_007, METER))
      expect(v).toBeLessThanOrEqual(at(120) + 1e-9);
  });
});

describe('the key of a sight', () => {
  const SIGHTS: readonly Sight[] = [
    { kind: 'volts', nominal: 120, base: 120, loose: false, side: 208, blur: 0 },
    { kind: 'volts', nominal: 208, base: 120, loose: false, side: 208, blur: 0 },
    { kind: 'volts', nominal: 120, base: 60, loose: false, side: 208, blur: 0 },
    { kind: 'volts', nominal: 120, base: 120, loose: true, side: 208, blur: 0 },
    { kind: 'volts', nominal: 120, base: 120, loose: false, side: 208, blur: 9 },
    { kind: 'open', reach: 120 },
    { kind: 'open', reach: 208 },
    { kind: 'angle', low: 0, high: 240 },
    { kind: 'angle', low: 157, high: 397 },
    { kind: 'ohms', closed: true },
    { kind: 'ohms', closed: false },
    { kind: 'rotation', order: 'ABC' },
    { kind: 'rotation', order: 'CBA' },
    { kind: 'blind' },
  ];

  it('is another for each that a meter could tell, and one for the same', () => {
    const keys = SIGHTS.map(sightKey);
    expect(new Set(keys).size).toBe(SIGHTS.length);
    expect(keys.every((k) => !k.includes('undefined'))).toBe(true);
    expect(sightKey({ ...(SIGHTS[0] as Sight) })).toBe(keys[0]);
  });
});
