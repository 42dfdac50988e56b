import type { ColorName } from './color-name';
import type { Message } from './message';

/** Key of a supply arrangement in `identify/conventions` such as `us-208y120`. Data, not code. */
export type SystemId = string;

/** What a conductor is in its system. */
export const ROLES = [
  'phase A',
  'phase B',
  'phase C',
  'line 1',
  'line 2',
  'high leg',
  'grounded conductor',
  'equipment grounding conductor',
  'isolated ground',
  'isolated conductor 1',
  'isolated conductor 2',
  'isolated conductor 3',
  'switch leg',
  'traveler',
  'control',
  'positive',
  'negative',
  'unassigned',
] as const;
export type Role = (typeof ROLES)[number];

export interface RoleProbability {
  readonly system: SystemId;
  readonly role: Role;
  readonly probability: number;
}

export interface Assignment {
  readonly conductor: string;
  /** Most probable first; probabilities sum to 1 with the remainder unnamed. */
  readonly roles: readonly RoleProbability[];
  /** The facts that moved it most, strongest first. */
  readonly because: readonly Message[];
  /** Pole space of the panel, where known. */
  readonly space?: number;
}

export type Severity = 'danger' | 'violation' | 'warning' | 'note';

/** A rule broken or a risk seen. Never a statement that something is safe. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: Message;
  /** Conductors concerned; empty when it concerns the whole photo. */
  readonly conductors: readonly string[];
  /** Rule with section and edition, and how well it was checked. */
  readonly rule?: string;
  readonly ruleStatus?: 'read' | 'from memory' | 'common practice, no source';
}

export interface SystemPosterior {
  readonly system: SystemId;
  /** Probability that this system is present in the photo (several may be). */
  readonly probability: number;
}

export interface PhaseMap {
  readonly systems: readonly SystemPosterior[];
  readonly assignments: readonly Assignment[];
  readonly eliminated: readonly { readonly system: SystemId; readonly why: Message }[];
  readonly findings: readonly Finding[];
}

/** One line of the identification posted at this building's panels; it outranks habit. */
export interface SiteLegendEntry {
  readonly system: SystemId;
  readonly role: Role;
  readonly color: ColorName;
  readonly stripe?: ColorName;
}

/**
 * Numberings of pole spaces other than the usual one (odd left, even right, from the top): straight down the left column
 * and then the right; a board mounted upside down, its first space at the bottom right; a board whose right side takes
 * the phases in the opposite order.
 */
export const BOARD_ORDERS = ['down', 'upside down', 'right side reversed'] as const;

/** How the pole spaces of the board are numbered, as its stamp says. */
export interface BoardNumbering {
  readonly order: (typeof BOARD_ORDERS)[number];
  /** Straight down only: spaces in one column; absent where the board has one column. */
  readonly rows?: number;
}

/** What a tag may say of a conductor's part in its system, as the trade writes it. */
export const TAG_WORDS = ['A', 'B', 'C', 'L1', 'L2', 'L3', 'N', 'G'] as const;
export type TagWord = (typeof TAG_WORDS)[number];

/** What the user knows and the photo cannot show. */
export interface SiteKnowledge {
  readonly jurisdiction: 'US' | 'CA' | 'IEC' | 'UK' | 'AU' | 'CN' | 'IN' | 'JP';
  /** Systems the user says are there (posted voltage); empty when unknown. */
  readonly systems: readonly SystemId[];
  readonly legend: readonly SiteLegendEntry[];
  /** Conductors that belong to one circuit, cable, tag or multi-pole breaker. */
  readonly groups: readonly {
    readonly conductors: readonly string[];
    readonly kind: 'circuit' | 'cable' | 'tag' | 'breaker';
  }[];
  /** Conductor id to panel pole space. */
  readonly spaces: Readonly<Record<string, number>>;
  /** How those spaces are numbered; absent: odd left, even right, from the top. */
  readonly board?: BoardNumbering;
  /** Conductor id to what its tag says of its part, as the user read it. */
  readonly tags?: Readonly<Record<string, TagWord>>;
  /** What tells one phase from the next at this site; absent when the user has not said. */
  readonly phasesBy?: 'color' | 'tag';
  /** Load in amperes by pole space, as far as it was entered. */
  readonly loads?: Readonly<Record<string, number>>;
}
