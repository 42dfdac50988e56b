import type { Advice, Comparison, HuePicture } from '../color';
import type { InsulationColor, NamedConductor, Point, SiteKnowledge } from '../flow';

/** Stages in their order, as progress and time are reported by. */
export const STAGES = ['decode', 'light', 'segment', 'trace', 'name', 'map'] as const;
export type Stage = (typeof STAGES)[number];
export type OnStage = (stage: Stage, share: number) => void;

/** Nothing known of the site: US habit, no posted systems. */
export const NOTHING_KNOWN: SiteKnowledge = { jurisdiction: 'US', systems: [], legend: [], groups: [], spaces: {} };

/** A closer look at one conductor's color. Plain data. */
export interface HueCheck {
  /** Where the reading lies among the names in the hue plane. */
  readonly picture: HuePicture;
  /** What would help, by expected gain, largest first. */
  readonly advice: readonly Advice[];
  /** Against the other conductor that was asked about; null without one, or when that one could not be read. */
  readonly comparison: Comparison | null;
}

/** What was asked at a point, and what was found there. */
export interface Probe {
  readonly at: Point;
  readonly conductor: NamedConductor | null;
  /** The color of what lies at the point where that is tape on the conductor and not its insulation; else null. */
  readonly touched: InsulationColor | null;
}

export interface InspectRequest {
  /** Points to be traced from, in full-size pixels of the upright photo. */
  readonly at?: readonly Point[];
  readonly knowledge?: SiteKnowledge;
  readonly signal?: AbortSignal;
  readonly onStage?: OnStage;
}
