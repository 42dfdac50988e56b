import { type Acknowledgement, type Check, type Message, message, type PhaseMap, type Reading } from '../flow';
import { sortReadings } from './active';
import { type Belief, expectation } from './agreement';
import { claimsOf } from './claim';
import { BONDED_OHMS, OPEN_OHMS } from './end';
import { modelsFor } from './models';
import { bandOptions, type MeterOptions } from './options';
import { SAFETY_STEPS, type SafetyStep } from './safety';
import { answers, at, checkId, GROUND } from './test-point';

/** How far a conductor is rung out. `found`: open while lifted at both ends, closed with its far end bonded. */
export type RingState = 'not yet' | 'open' | 'found' | 'contradicts';

export interface RungConductor {
  readonly conductor: string;
  readonly state: RingState;
  /** What the contradiction means and what to look for; null where there is none. */
  readonly why: Message | null;
}

export interface DeEnergizedPlan {
  /** Steps to be acknowledged, in order, before the first of the checks. */
  readonly before: readonly SafetyStep[];
  /** Both checks of each conductor that are not in yet; the second only after the first agreed. */
  readonly checks: readonly Check[];
  readonly conductors: readonly RungConductor[];
}

const CONDITIONS = ['supply off, both ends lifted', 'supply off, far end bonded'] as const;
type RingCondition = (typeof CONDITIONS)[number];

const shapeOf = (conductor: string, condition: RingCondition) => ({
  from: at(conductor),
  to: GROUND,
  function: 'continuity' as const,
  condition,
});

function ringCheck(conductor: string, condition: RingCondition, belief: Belief): Check {
  const shape = shapeOf(conductor, condition);
  const expected = expectation(shape, belief);
  const code = condition === 'supply off, both ends lifted' ? 'verify.why.ring-open' : 'verify.why.ring-closed';
  return {
    ...shape,
    id: checkId(shape),
    expected: expected ? [expected] : [],
    why: message(code, { conductor }),
    requiredFor: [],
    informationBits: 0,
  };
}

/** The last counted reading of a ring-out check is the one that holds. */
const lastOf = (conductor: string, condition: RingCondition, counted: readonly Reading[]): Reading | undefined =>
  counted.findLast((r) => answers(r, { id: checkId(shapeOf(conductor, condition)) }));

const isOpen = ({ value }: Reading): boolean => value === 'OL' || (typeof value === 'number' && value >= OPEN_OHMS);
const isClosed = ({ value }: Reading): boolean => typeof value === 'number' && value <= BONDED_OHMS;

function rung(conductor: string, counted: readonly Reading[]): RungConductor {
  const lifted = lastOf(conductor, 'supply off, both ends lifted', counted);
  const bonded = lastOf(conductor, 'supply off, far end bonded', counted);
  const is = (state: RingState, code?: string): RungConductor => ({
    conductor,
    state,
    why: code ? message(code, { conductor }) : null,
  });
  if (lifted && !isOpen(lifted)) return is('contradicts', 'verify.ring.tied');
  if (bonded && !isClosed(bonded)) return is('contradicts', 'verify.ring.not-this-end');
  if (!lifted) return is('not yet');
  return is(bonded ? 'found' : 'open');
}

/**
 * The plan where measuring live is not justified: with the supply proven off, every conductor is lifted and rung out
 * on its own (open, then closed when its far end alone is bonded to ground) and numbered. It proves which conductor
 * is which at both ends, never a voltage or a phase letter: those wait for readings. Limits in ohms: see `end.ts`.
 */
export function planDeEnergized(
  map: PhaseMap,
  readings: readonly Reading[] = [],
  options: MeterOptions = {},
): DeEnergizedPlan {
  const belief: Belief = {
    claims: new Map(claimsOf(map).map((c) => [c.conductor, c])),
    models: modelsFor(map, options.posted),
    band: bandOptions(options),
  };
  const { counted } = sortReadings(map, readings, options);
  const conductors = map.assignments.map(({ conductor }) => rung(conductor, counted));
  const checks = conductors.flatMap(({ conductor, state }) => {
    if (state === 'not yet') return CONDITIONS.map((condition) => ringCheck(conductor, condition, belief));
    return state === 'open' ? [ringCheck(conductor, 'supply off, far end bonded', belief)] : [];
  });
  return { before: SAFETY_STEPS.filter((s) => s.moment !== 'caution'), checks, conductors };
}

const NUMBERED = 'numbered ';

/** The step by which somebody confirms that a conductor carries the same number at both ends. */
export const numberingStep = (conductor: string): string => NUMBERED + conductor;

/** Was the same number put on both ends of a conductor that is still rung out as it was then? */
export function isNumbered(
  { conductor, state }: RungConductor,
  acknowledgements: readonly Acknowledgement[],
  options: MeterOptions = {},
): boolean {
  const edited = options.edited?.[conductor];
  return acknowledgements.some(
    (a) =>
      a.step === numberingStep(conductor) &&
      state === 'found' &&
      a.by.trim() !== '' &&
      (edited === undefined || Date.parse(a.at) > Date.parse(edited)),
  );
}
