import { type Check, message, type PhaseMap } from '../flow';
import { type Belief, expectation } from './agreement';
import { claimsOf } from './claim';
import { modelsFor } from './models';
import { bandOptions, type MeterOptions } from './options';
import { SAFETY_STEPS, type SafetyStep } from './safety';
import { at, checkId, GROUND } from './test-point';

export interface DeEnergizedPlan {
  /** Steps to be acknowledged before the first of the checks. */
  readonly before: readonly SafetyStep[];
  /** Each conductor alone: lifted, then with its far end bonded to ground. */
  readonly checks: readonly Check[];
}

/**
 * The plan where measuring with the supply on is not justified: with the supply proven off, every conductor is
 * lifted and rung out on its own (open, then closed when its far end alone is bonded to ground) and numbered.
 * It proves which conductor is which at both ends, never a voltage or a phase letter: those wait for readings.
 */
export function planDeEnergized(map: PhaseMap, options: MeterOptions = {}): DeEnergizedPlan {
  const claims = claimsOf(map);
  const belief: Belief = {
    claims: new Map(claims.map((c) => [c.conductor, c])),
    models: modelsFor(map, options.posted),
    band: bandOptions(options),
  };
  const checks = claims.flatMap(({ conductor }) =>
    (['supply off, lifted', 'supply off, far end bonded'] as const).map((condition): Check => {
      const shape = { from: at(conductor), to: GROUND, function: 'continuity' as const, condition };
      const expected = expectation(shape, belief);
      const why = message(condition === 'supply off, lifted' ? 'verify.why.ring-open' : 'verify.why.ring-closed', {
        conductor,
      });
      return {
        ...shape,
        id: checkId(shape),
        expected: expected ? [expected] : [],
        why,
        requiredFor: [],
        informationBits: 0,
      };
    }),
  );
  return { before: SAFETY_STEPS.filter((s) => s.moment !== 'caution'), checks };
}
