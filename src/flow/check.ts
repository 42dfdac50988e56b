import type { Message } from './message';
import type { PhaseMap, Role, SystemId } from './phase-map';

/**
 * Where a lead of the meter goes. `ground` is a proven grounding electrode or enclosure bond, `neutral bar` the
 * bonded bar, `pole` a marked pole of the panel's bus or of the source: the only place a phase letter comes from,
 * since voltages to neutral and ground are the same for A, B and C.
 */
export type TestPoint =
  | { readonly kind: 'conductor'; readonly conductor: string }
  | { readonly kind: 'ground' }
  | { readonly kind: 'neutral bar' }
  | { readonly kind: 'pole'; readonly system: SystemId; readonly role: Role };

/**
 * `tone`: a tone sent into the lifted conductor at this end and listened for at the far end taken for its own. It is a
 * hint that saves time: a tone couples into neighbors.
 */
export const METER_FUNCTIONS = [
  'AC volts',
  'AC volts, low impedance',
  'DC volts',
  'continuity',
  'phase rotation',
  'tone',
] as const;
export type MeterFunction = (typeof METER_FUNCTIONS)[number];

/** Readings that are no number: beyond the range, the order of phases, a tone at the far end or none. */
export const READING_WORDS = ['OL', 'ABC', 'CBA', 'tone', 'no tone'] as const;
export type ReadingWord = (typeof READING_WORDS)[number];

/**
 * What must be arranged before the reading is taken; absent: as found, supply on. `position 1` and `position 2`
 * are the two positions of the switch that feeds a traveler, `far switch` the one at the other end of it.
 * `supply off, lifted`: supply proven off and the conductor lifted from its terminal; `supply off, both ends
 * lifted`: lifted at its far end too; `supply off, far end bonded`: supply proven off and this conductor alone bonded
 * to ground at its far end.
 */
export const CHECK_CONDITIONS = [
  'switch on',
  'switch off',
  'switch on, both switches moved',
  'position 1',
  'position 2',
  'position 1, far switch moved',
  'supply off, lifted',
  'supply off, both ends lifted',
  'supply off, far end bonded',
] as const;
export type CheckCondition = (typeof CHECK_CONDITIONS)[number];

/** What a hypothesis predicts. Volts for voltage functions, ohms for continuity. */
export interface ExpectedReading {
  readonly system: SystemId;
  readonly between: readonly [Role | 'ground', Role | 'ground'];
  readonly nominal: number;
  /** Band in which a reading agrees, the meter's accuracy included. */
  readonly low: number;
  readonly high: number;
  /** Where the band comes from (ANSI C84.1 range, IEC 60038, load drop, ...). */
  readonly band: Message;
  /** Continuity: the meter should show OL; `nominal`, `low` and `high` are then in ohms and `high` is only a cap. */
  readonly open?: true;
  /** Phase rotation: the order expected; the numbers are then 0. */
  readonly rotation?: 'ABC' | 'CBA';
}

export interface Check {
  readonly id: string;
  readonly from: TestPoint;
  readonly to: TestPoint;
  readonly function: MeterFunction;
  /** Third lead of a rotation tester. */
  readonly third?: TestPoint;
  readonly condition?: CheckCondition;
  /** First is that of the most probable map. */
  readonly expected: readonly ExpectedReading[];
  readonly why: Message;
  /** Ways in which the map may be wrong that this check would show, likeliest first; at most three. */
  readonly rulesOut?: readonly Message[];
  /** Conductors that cannot become metered without it. */
  readonly requiredFor: readonly string[];
  /** Expected information in bits, for ordering. */
  readonly informationBits: number;
}

export interface MeterPlan {
  /** In the order to be made; empty when coverage is complete. */
  readonly next: readonly Check[];
  /** Every check each conductor needs before it can be metered. */
  readonly required: Readonly<Record<string, readonly string[]>>;
  /** Reasons to stop and call someone (over 600 V, unknown system, ...). */
  readonly stops: readonly Message[];
}

export interface Reading {
  readonly id: string;
  readonly from: TestPoint;
  readonly to: TestPoint;
  readonly function: MeterFunction;
  readonly third?: TestPoint;
  /** How things stood when it was taken; absent: as found, supply on. */
  readonly condition?: CheckCondition;
  /** Volts, ohms; 'OL' when the meter says so; 'ABC' or 'CBA' for phase rotation; 'tone' or 'no tone' for a tone. */
  readonly value: number | ReadingWord;
  /** ISO 8601. */
  readonly at: string;
  /** Who says so. */
  readonly by: string;
  /** Id of the reading that this one replaces; the old one is kept. */
  readonly supersedes?: string;
  /** The user confirmed a value the program questioned. */
  readonly confirmed?: boolean;
  /** Taken back by hand without a new value: kept, and not counted. */
  readonly takenBack?: { readonly by: string; readonly at: string };
}

/** How far a conductor's role is proved. Nothing else may look like proof. */
export type Standing = 'by color' | 'metered' | 'disputed';

export interface ConductorVerdict {
  readonly conductor: string;
  readonly standing: Standing;
  /** Checks still missing. */
  readonly missing: readonly string[];
  /** Readings that agree and that contradict. */
  readonly agree: readonly string[];
  readonly contradict: readonly string[];
}

export interface Explanation {
  readonly message: Message;
  readonly probability: number;
  /** The check that would tell it from the others. */
  readonly settledBy?: string;
}

export interface Verdict {
  readonly conductors: readonly ConductorVerdict[];
  /** The phase map after the readings. */
  readonly map: PhaseMap;
  readonly explanations: readonly Explanation[];
  /** What this reading changed, in words. */
  readonly changes: readonly Message[];
}
