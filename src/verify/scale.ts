import type { Reading } from '../flow';
import { type Belief, expectation } from './agreement';

/**
 * A supply that is 5 % low is low on every pair at once, so the ratios of readings are far sharper than any band:
 * 208 V between lines that read 120 V to neutral is a wye, 240 V is not, though both lie in one wide band.
 * Allowed spread between lowest and highest ratio: 3 % unbalance between phases (ANSI C84.1 annex, from memory)
 * above and below, and twice the meter's percentage.
 */
const UNBALANCE = 0.03;

/** Readings of nominal pairs as fractions of nominal; zero pairs, other functions and floating ground left out. */
export function ratiosOf(readings: readonly Reading[], belief: Belief): number[] {
  return readings.flatMap((reading) => {
    const expected = expectation(reading, belief);
    if (!expected || typeof reading.value !== 'number' || expected.open || expected.rotation) return [];
    if (
      reading.function === 'continuity' ||
      expected.band.startsWith('floating') ||
      expected.band.startsWith('two systems')
    )
      return [];
    return Math.abs(expected.nominal) < 1 ? [] : [reading.value / expected.nominal];
  });
}

/** Do the ratios belong to one supply? */
export function oneSupply(ratios: readonly number[], belief: Belief): boolean {
  if (ratios.length < 2) return true;
  const [low, high] = [Math.min(...ratios), Math.max(...ratios)];
  return high - low <= 2 * (UNBALANCE + belief.band.meter.accuracyPercent / 100) * ((high + low) / 2);
}
