import type { ColorName } from './color-name';
import type { Point } from './geometry';
import type { Message } from './message';
import type { Role, Severity, SystemId } from './phase-map';

/** What a column of a schedule can hold. `photo` is a file name. */
export const SCHEDULE_FIELDS = [
  'panel',
  'space',
  'poles',
  'system',
  'phase',
  'circuit',
  'load',
  'color',
  'size',
  'neutral',
  'ground',
  'torque',
  'photo',
] as const;
export type ScheduleField = (typeof SCHEDULE_FIELDS)[number];

/** One line of the schedule: its cells as given, so that nothing is lost by reading them wrongly. */
export interface ScheduleLine {
  readonly id: string;
  /** Row in the file, the header being 1; null when typed in here. */
  readonly row: number | null;
  readonly cells: Readonly<Partial<Record<ScheduleField, string>>>;
  /** Cells of columns that were mapped to nothing, by heading. */
  readonly other: Readonly<Record<string, string>>;
}

export type TerminationPart = 'pole' | 'neutral' | 'ground';

/** One conductor landed at one place, as the schedule wants it. Worked out from a line; never kept. */
export interface Termination {
  /** Stable for a line and its part. */
  readonly id: string;
  readonly line: string;
  readonly panel: string;
  /** Pole space; null for neutral, ground, and where the schedule names none. */
  readonly space: number | null;
  readonly part: TerminationPart;
  readonly circuit: string;
  readonly load: string;
  readonly size: string;
  readonly system: SystemId | null;
  /** The phase the schedule names, or, where it names none, the one behind the pole space. */
  readonly role: Role | null;
  /** True when the schedule itself names the phase. */
  readonly roleGiven: boolean;
  readonly color: ColorName | null;
  readonly stripe: ColorName | null;
  readonly torque: Torque | null;
}

export const TORQUE_UNITS = ['N·m', 'lbf·in', 'lbf·ft'] as const;
export interface Torque {
  readonly value: number;
  readonly unit: (typeof TORQUE_UNITS)[number];
}

/** Who entered something and when (ISO 8601). */
export interface Said {
  readonly by: string;
  readonly at: string;
}

/** Where a photo was taken. `how` it came to be attached is kept: a guess by order is not a word. */
export interface PhotoPlace extends Said {
  readonly photo: string;
  readonly panel: string;
  readonly space?: number;
  readonly termination?: string;
  readonly how: 'by hand' | 'by order' | 'by tag' | 'by schedule';
  /** After a deviation was put right; absent: as first seen. */
  readonly after?: true;
}

/** This conductor of this photo is the one at the termination: the user's word. */
export interface Sighting extends Said {
  readonly photo: string;
  readonly conductor: string;
  /** Paired by the order in the photo, without anybody pointing at it; absent: pointed at. */
  readonly how?: 'by order';
}

/** What was entered at a termination. */
export interface TerminationEntry {
  /** As first seen, then as seen after a correction: the last one counts. */
  readonly sightings?: readonly Sighting[];
  readonly torque?: Torque & Said & { readonly tool: string };
  /** The mark across screw and lug that shows if it moved: the user's word. */
  readonly witness?: Said & { readonly seen: boolean };
  /** Length of bared conductor, millimeters. */
  readonly strip?: Said & { readonly mm: number };
  readonly tape?: Said & { readonly text: string };
}

/** What is kept of the handling of a deviation; the deviation itself is worked out anew each time. */
export interface Handling {
  readonly assigned?: Said & { readonly to: string };
  readonly comments: readonly (Said & { readonly text: string })[];
  /** Closed with a photo taken afterwards. */
  readonly closed?: Said & { readonly photo: string };
}

export interface Signature extends Said {
  /** In what capacity, as typed. */
  readonly capacity: string;
  /** Strokes in a box of 1 by 1, y down; absent when typed. */
  readonly strokes?: readonly (readonly Point[])[];
  /** Job hash at signing: a later change of the record shows. */
  readonly covers: string;
}

/** The turnover of a job: what should be there and what was entered. */
export interface Turnover {
  readonly lines: readonly ScheduleLine[];
  readonly places: readonly PhotoPlace[];
  readonly entries: Readonly<Record<string, TerminationEntry>>;
  /** By id of the deviation. */
  readonly handled: Readonly<Record<string, Handling>>;
  readonly signatures: readonly Signature[];
}

export const EMPTY_TURNOVER: Turnover = { lines: [], places: [], entries: {}, handled: {}, signatures: [] };

/** How what was seen compares with what was expected. A match is a match of colors and proves nothing. */
export type Comparison = 'match' | 'differs' | 'cannot tell' | 'missing';

export interface Deviation {
  /** Stable for the termination and the kind. */
  readonly id: string;
  readonly code: string;
  readonly severity: Severity;
  readonly termination: string | null;
  readonly panel: string;
  readonly message: Message;
  /** Row of the schedule it speaks of, where it is about the schedule itself. */
  readonly row?: number;
}
