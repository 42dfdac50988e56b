import type { PhaseMap, Reading } from '../../../src/flow';
import type { MeterOptions } from '../../../src/verify';
import { planChecks } from '../../../src/verify';
import { readingOf } from './probe';

/** Readings that answer every check of the plan with exactly what the claimed map expects, at a supply level. */
export function asClaimed(map: PhaseMap, options: MeterOptions, level = 0.98): Reading[] {
  return planChecks(map, [], options).next.flatMap((check) => {
    const expected = check.expected[0];
    if (!expected) return [];
    const volts = Math.round(expected.nominal * level * 10) / 10;
    const value = expected.open ? 'OL' : (expected.rotation ?? (check.function === 'continuity' ? 0.3 : volts));
    return [readingOf(check, value)];
  });
}
