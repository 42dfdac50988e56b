import { expect, it } from 'vitest';
import { logSum } from '../../src/color/gaussian';

it('the logarithm of a sum of exponentials, where the exponentials themselves are out of range', () => {
  // ln(e^x + e^x) = x + ln 2
  expect(logSum([-1000, -1000])).toBeCloseTo(-1000 + Math.LN2, 12);
  expect(logSum([1000, 1000])).toBeCloseTo(1000 + Math.LN2, 12);
  expect(logSum([Math.log(1), Math.log(2), Math.log(3)])).toBeCloseTo(Math.log(6), 12);
});

it('nothing has no weight', () => {
  expect(logSum([])).toBe(-Infinity);
  expect(logSum([-Infinity, -Infinity])).toBe(-Infinity);
});
