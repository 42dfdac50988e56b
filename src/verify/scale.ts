import type { Reading } from '../flow';
import { type Belief, judgeReading } from './agreement';
import { endOf, TWO_SYSTEMS } from './end';
import { FLOATING } from './expected-voltage';
import { conductorsOf } from './test-point';

/**
 * A supply that is 5 % low is low on every pair at once, so the ratios of readings are far sharper than any band:
 * 208 V between lines that read 120 V to neutral is a wye, 240 V is not, though both lie in one wide band.
 * Allowed spread between lowest and highest ratio: 3 % unbalance between phases (ANSI C84.1 annex, from memory)
 * above and below, and twice the meter's percentage.
 */
const UNBALANCE = 0.03;

/** A reading as a fraction of nominal, and how much of it the drop along its neutral may have added or taken. */
export interface Ratio {
  readonly value: number;
  readonly slack: number;
}

/**
 * Volts that load current was read to lift each grounded conductor above ground, by conductor: what such a
 * conductor is lifted by, one line reads less to it and the line on the other side of the winding more. Only readings
 * that agree count, so that it never allows for more than the load drop itself is allowed.
 */
export function neutralDrops(readings: readonly Reading[], belief: Belief): ReadonlyMap<string, number> {
  const drops = new Map<string, number>();
  for (const reading of readings) {
    const ends = [endOf(reading.from, belief.claims), endOf(reading.to, belief.claims)];
    const [own, ...others] = conductorsOf(reading);
    const toGround = ends.some((e) => e?.role === 'ground') && ends.some((e) => e?.role === 'grounded conductor');
    if (!own || others.length > 0 || !toGround || typeof reading.value !== 'number') continue;
    if (!reading.function.startsWith('AC') || judgeReading(reading, belief).agreement !== 'agrees') continue;
    drops.set(own, Math.max(drops.get(own) ?? 0, reading.value));
  }
  return drops;
}

/** Readings of nominal pairs as fractions of nominal; zero pairs, other functions and floating ground left out. */
export function ratiosOf(
  readings: readonly Reading[],
  belief: Belief,
  drops: ReadonlyMap<string, number> = new Map(),
): Ratio[] {
  return readings.flatMap((reading): Ratio[] => {
    const { expected } = judgeReading(reading, belief);
    if (!expected || typeof reading.value !== 'number' || expected.open || expected.rotation) return [];
    if (reading.function === 'continuity' || [FLOATING, TWO_SYSTEMS].includes(expected.band.code)) return [];
    if (Math.abs(expected.nominal) < 1) return [];
    const dropped = Math.max(0, ...conductorsOf(reading).map((id) => drops.get(id) ?? 0));
    return [{ value: reading.value / expected.nominal, slack: dropped / Math.abs(expected.nominal) }];
  });
}

/** Do the ratios belong to one supply? */
export function oneSupply(ratios: readonly Ratio[], belief: Belief): boolean {
  if (ratios.length < 2) return true;
  const low = Math.min(...ratios.map((r) => r.value + r.slack));
  const high = Math.max(...ratios.map((r) => r.value - r.slack));
  return high - low <= 2 * (UNBALANCE + belief.band.meter.accuracyPercent / 100) * ((high + low) / 2);
}
