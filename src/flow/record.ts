import type { Reading } from './check';
import type { ColorReference, CombinedColor, NamedConductor, UserWord } from './conductor';
import type { Point } from './geometry';
import type { Message } from './message';
import type { PhaseMap, SiteKnowledge, SystemId } from './phase-map';
import type { CaptureVerdict, LightEstimate, PhotoFacts } from './photo';
import type { Turnover } from './turnover';

/** Everything read from one photo. Plain data: survives structured clone and JSON. */
export interface Findings {
  readonly photo: PhotoFacts;
  /** Size of the working image that all coordinates refer to. */
  readonly workingWidth: number;
  readonly workingHeight: number;
  readonly capture: CaptureVerdict;
  readonly light: LightEstimate;
  readonly conductors: readonly NamedConductor[];
  readonly references: readonly ColorReference[];
  readonly map: PhaseMap;
  /** Which segmenter found the conductors, with the version of its weights. */
  readonly segmenter: string;
  readonly elapsedMs: number;
  /** Milliseconds per stage. */
  readonly stages: Readonly<Record<string, number>>;
}

/** Who acknowledged the absence-of-voltage and qualified-person steps, per job. */
export interface Acknowledgement {
  readonly step: string;
  readonly by: string;
  readonly at: string;
}

/** What the user says of the instrument the readings were taken with. */
export interface JobMeter {
  /** Measurement category printed at the terminals (IEC 61010-2-030); null: none printed or not known. */
  readonly category: 'II' | 'III' | 'IV' | null;
  /** Voltage of that category, volts. */
  readonly ratedVolts: number;
  /** Has a low-impedance range. */
  readonly lowImpedance: boolean;
  /** Accuracy on volts that its maker states: percent of the reading and volts on top; absent: not said. */
  readonly accuracy?: StatedAccuracy;
}

export interface StatedAccuracy {
  readonly percent: number;
  readonly volts: number;
}

/** What the user says of the place where the readings are taken. */
export interface JobPlace {
  /** Decides which measurement category the meter needs (IEC 61010-2-030); null: not said yet. */
  readonly kind: 'outlet' | 'panel' | 'service' | null;
  /** Water, damage, burns or loose parts were seen; null: nobody has said yet. */
  readonly wetOrDamaged: boolean | null;
  /** The three phases feed motors, so that their rotation must be read. */
  readonly motors: boolean;
  /** Volts read from a nameplate, pole to pole or line to line, for systems whose id does not fix them. */
  readonly postedVolts: Readonly<Record<SystemId, number>>;
  /** Measured with the supply on, or rung out with the supply proven off. */
  readonly way: 'supply on' | 'supply off';
}

/** A conductor of a photo. */
export interface SeenConductor {
  readonly photo: string;
  readonly conductor: string;
}

/** One conductor on several photos, as the user says, and what the photos say of its color together. */
export interface SameConductor {
  readonly id: string;
  /** Two or more, each on another photo. */
  readonly sightings: readonly SeenConductor[];
  /** Follows the readings: anew when one of them is read again. */
  readonly together: CombinedColor;
  /** Who said last which photos show it, and when: ISO 8601. */
  readonly by: string;
  readonly at: string;
}

/** "Is this the same color as that?" for two conductors of one photo, as it was answered. */
export interface ColorComparison {
  readonly conductors: readonly [string, string];
  /** log10 of how many times better one color explains both readings than two colors do. */
  readonly log10Ratio: number;
  /** Who kept the answer, and when: ISO 8601. */
  readonly by: string;
  readonly at: string;
}

/** One visit or turnover. */
export interface Job {
  readonly id: string;
  readonly schema: 3;
  readonly title: string;
  readonly createdAt: string;
  readonly by: string;
  readonly site: SiteKnowledge;
  readonly photos: readonly JobPhoto[];
  readonly acknowledgements: readonly Acknowledgement[];
  /** Absent until the user has said that photos show one conductor. */
  readonly same?: readonly SameConductor[];
  /** Absent until the user has said what the meter is. */
  readonly meter?: JobMeter;
  /** Absent until there is a schedule or a photo with a place. */
  readonly turnover?: Turnover;
  /** Absent until the user has said something of the place. */
  readonly place?: JobPlace;
  /** True for the invented demonstration jobs. */
  readonly demo: boolean;
}

/** Something of known length in a photo, as the user pointed it out: how large a pixel is there. */
export interface KnownLength {
  /** Where it begins and ends, pixels of the working image; not the same place. */
  readonly ends: readonly [Point, Point];
  /** Above 0. */
  readonly mm: number;
  /** Who said so, and when: ISO 8601. */
  readonly by: string;
  readonly at: string;
}

export interface JobPhoto {
  readonly id: string;
  readonly findings: Findings;
  readonly words: Readonly<Record<string, UserWord>>;
  readonly readings: readonly Reading[];
  /** When a conductor's trace, color or word was last changed by hand: ISO 8601 by id. Readings before it do not count. */
  readonly edits?: Readonly<Record<string, string>>;
  /** Comparisons that the user kept, none of conductors that were changed since. */
  readonly comparisons?: readonly ColorComparison[];
  /** Absent until the user has pointed a length out. */
  readonly scale?: KnownLength;
  readonly note: string;
}

/**
 * One line of a job's log, written at each save and never changed. `hash` covers all other fields, `previous` is the
 * hash of the entry before (64 zeros for the first), so that a changed, dropped or reordered line shows.
 */
export interface LogEntry {
  /** 0 for the first. */
  readonly sequence: number;
  /** ISO 8601. */
  readonly at: string;
  /** Who the job said was working. */
  readonly by: string;
  /** What changed since the entry before. */
  readonly changes: readonly Message[];
  /** Lower-case hex SHA-256 of the job as it stood after this entry. */
  readonly jobHash: string;
  readonly previous: string;
  readonly hash: string;
}
