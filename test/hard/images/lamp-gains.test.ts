import { describe, expect, it } from 'vitest';
import { chromaticityAt, gainsBetween } from './lamp-gains';

describe('light of a color temperature', () => {
  // CIE 015:2018: D65 (0.3127, 0.3290) at 6504 K, D50 (0.3457, 0.3585) at 5003 K, A (0.4476, 0.4074) at 2856 K.
  it.each([
    [6504, 0.3127, 0.329],
    [5003, 0.3457, 0.3585],
    [2856, 0.4476, 0.4074],
  ])('%d K lies at its published chromaticity', (kelvin, x, y) => {
    const [a, b] = chromaticityAt(kelvin);
    expect(Math.hypot(a - x, b - y)).toBeLessThan(0.001);
  });

  it('would notice a wrong temperature: 6000 K is not D65', () => {
    const [a, b] = chromaticityAt(6000);
    expect(Math.hypot(a - 0.3127, b - 0.329)).toBeGreaterThan(0.005);
  });

  it('makes red of less and blue of more kelvin', () => {
    expect(gainsBetween(5000, 3500)[0]).toBeGreaterThan(1.1);
    expect(gainsBetween(5000, 3500)[2]).toBeLessThan(0.8);
    expect(gainsBetween(5000, 6500)[2]).toBeGreaterThan(1.1);
    expect(gainsBetween(5000, 5000)).toEqual([1, 1, 1]);
  });
});
