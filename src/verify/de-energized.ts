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
  /** What was heard of a tone at the far end; null: none was sent. A hint, which never makes it `found`. */
  readonly tone: 'tone' | 'no tone' | null;
  /** What the contradiction means and what to look for; null where there is none. */
  readonly why: Message | null;
}

export interface DeEnergizedPlan {
  /** Steps to be acknowledged, in order, before the first of the checks. */
  readonly before: readonly SafetyStep[];
  /** Both checks of each conductor that are not in yet; the second only after the first agreed. */
  readonly checks: readonly Check[];
  /** A tone for each conductor that is not found yet: it may be sent before, and need not be. */
  readonly tones: readonly Check[];
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

/** The tone is sent between the conductor and ground at this end, both ends lifted so that it takes no other way. */
const toneOf = (conductor: string) => ({ ...shapeOf(conductor, CONDITIONS[0]), function: 'tone' as const });

type Shape = ReturnType<typeof shapeOf> | ReturnType<typeof toneOf>;

function checkOf(conductor: string, shape: Shape, why: string, belief: Belief): Check {
  const expected = expectation(shape, belief);
  return {
    ...shape,
    id: checkId(shape),
    expected: expected ? [expected] : [],
    why: message(why, { conductor }),
    requiredFor: [],
    informationBits: 0,
  };
}

const ringCheck = (conductor: string, condition: RingCondition, belief: Belief): Check =>
  checkOf(
    conductor,
    shapeOf(conductor, condition),
    condition === 'supply off, both ends lifted' ? 'verify.why.ring-open' : 'verify.why.ring-closed',
    belief,
  );

/** The last counted reading of a ring-out check is the one that holds. */
const lastOf = (shape: Shape, counted: readonly Reading[]): Reading | undefined =>
  counted.findLast((r) => answers(r, { id: checkId(shape) }));

const isOpen = ({ value }: Reading): boolean => value === 'OL' || (typeof value === 'number' && value >= OPEN_OHMS);
const isClosed = ({ value }: Reading): boolean => typeof value === 'number' && value <= BONDED_OHMS;

function rung(conductor: string, counted: readonly Reading[]): RungConductor {
  const lifted = lastOf(shapeOf(conductor, 'supply off, both ends lifted'), counted);
  const bonded = lastOf(shapeOf(conductor, 'supply off, far end bonded'), counted);
  const heard = lastOf(toneOf(conductor), counted)?.value;
  const tone = heard === 'tone' || heard === 'no tone' ? heard : null;
  const is = (state: RingState, code?: string): RungConductor => ({
    conductor,
    state,
    tone,
    why: code ? message(code, { conductor }) : null,
  });
  if (lifted && !isOpen(lifted)) return is('contradicts', 'verify.ring.tied');
  if (bonded && !isClosed(bonded)) return is('contradicts', 'verify.ring.not-this-end');
  if (!lifted) return is('not yet');
  if (bonded && tone === 'no tone') return is('contradicts', 'verify.ring.no-tone');
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
  const tones = conductors
    .filter(({ state, tone }) => tone === null && state !== 'found')
    .map(({ conductor }) => checkOf(conductor, toneOf(conductor), 'verify.why.tone', belief));
  return { before: SAFETY_STEPS.filter((s) => s.moment !== 'caution'), checks, tones, conductors };
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
