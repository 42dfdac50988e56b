import { describe, expect, it } from 'vitest';
import { type Cov2, type Cov3, logNormal2, logNormal3, logSum } from '../../src/color/gaussian';
import { normal, seeded } from './make-ribbon';

/** ln of the density of a normal variable with mean 0. */
const one = (v: number, variance: number): number => -0.5 * (v ** 2 / variance + Math.log(2 * Math.PI * variance));

/**
 * x = M u with independent u has the density of u over the size of det M (change of variables) and the covariance
 * M D M'. So the value is known without inverting any covariance.
 */
function mixed(random: () => number, n: number) {
  const m = Array.from({ length: n }, () => Array.from({ length: n }, () => normal(random)));
  const variances = Array.from({ length: n }, () => 0.1 + 3 * random());
  const u = Array.from({ length: n }, () => normal(random));
  const x = m.map((row) => row.reduce((sum, v, k) => sum + v * u[k]!, 0));
  const cov = (i: number, j: number): number => variances.reduce((sum, v, k) => sum + m[i]![k]! * m[j]![k]! * v, 0);
  const minor = (a: number, b: number, c: number, d: number): number => m[a]![c]! * m[b]![d]! - m[a]![d]! * m[b]![c]!;
  const det =
    n === 2
      ? minor(0, 1, 0, 1)
      : m[0]![0]! * minor(1, 2, 1, 2) - m[0]![1]! * minor(1, 2, 0, 2) + m[0]![2]! * minor(1, 2, 0, 1);
  const density = u.reduce((sum, v, k) => sum + one(v, variances[k]!), 0) - Math.log(Math.abs(det));
  return { x, cov, density };
}

describe('normal densities', () => {
  it('in three dimensions are those of independent variables that were mixed linearly', () => {
    const random = seeded(3);
    for (let k = 0; k < 200; k++) {
      const { x, cov, density } = mixed(random, 3);
      const c: Cov3 = [cov(0, 0), cov(0, 1), cov(0, 2), cov(1, 1), cov(1, 2), cov(2, 2)];
      expect(logNormal3(x[0]!, x[1]!, x[2]!, c) / density).toBeCloseTo(1, 5);
    }
  });

  it('in two dimensions too', () => {
    const random = seeded(4);
    for (let k = 0; k < 200; k++) {
      const { x, cov, density } = mixed(random, 2);
      const c: Cov2 = [cov(0, 0), cov(0, 1), cov(1, 1)];
      expect(logNormal2(x[0]!, x[1]!, c) - density).toBeCloseTo(0, 5);
    }
  });

  it('twin: with the sign of one covariance exchanged they are others', () => {
    const random = seeded(5);
    const { x, cov, density } = mixed(random, 3);
    const wrong: Cov3 = [cov(0, 0), -cov(0, 1), cov(0, 2), cov(1, 1), cov(1, 2), cov(2, 2)];
    expect(logNormal3(x[0]!, x[1]!, x[2]!, wrong)).not.toBeCloseTo(density, 2);
  });
});

describe('the logarithm of a sum of exponentials', () => {
  it('holds where the exponentials themselves are out of range', () => {
    // ln(e^x + e^x) = x + ln 2
    expect(logSum([-1000, -1000])).toBeCloseTo(-1000 + Math.LN2, 12);
    expect(logSum([1000, 1000])).toBeCloseTo(1000 + Math.LN2, 12);
    expect(logSum([Math.log(1), Math.log(2), Math.log(3)])).toBeCloseTo(Math.log(6), 12);
  });

  it('of nothing is no weight', () => {
    expect(logSum([])).toBe(-Infinity);
    expect(logSum([-Infinity, -Infinity])).toBe(-Infinity);
  });
});
