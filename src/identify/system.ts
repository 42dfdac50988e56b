import type { Message, Role, SiteKnowledge, SystemId } from '../flow';

export type Jurisdiction = SiteKnowledge['jurisdiction'];

/** How a fact was checked; printed beside every rule. */
export type SourceStatus = 'read' | 'from memory' | 'common practice, no source';

/**
 * How the voltages of a system hang together. The verify room builds its phasors from this:
 * - `split phase`: two lines 180 degrees apart about a grounded middle
 * - `wye`: three phases 120 degrees apart about a grounded star point
 * - `delta`: three phases, no grounded point on purpose
 * - `corner-grounded delta`: three phases, one of them grounded
 * - `high-leg delta`: three phases, the middle of one winding grounded
 * - `single line`: one line against a grounded neutral
 * - `isolated`: nothing grounded, monitored
 * - `dc`: two poles
 * - `auxiliary`: conductors that ride along with another system (switch legs, control)
 */
export type SystemKind =
  | 'split phase'
  | 'wye'
  | 'delta'
  | 'corner-grounded delta'
  | 'high-leg delta'
  | 'single line'
  | 'isolated'
  | 'dc'
  | 'auxiliary';

/** Nominal volts. Absent where the system has no such pair or the color tells nothing of it (DC, control). */
export interface NominalVoltage {
  readonly lineToLine?: number;
  readonly lineToNeutral?: number;
  /** High-leg delta only: high leg to neutral. */
  readonly highLegToNeutral?: number;
  readonly source: string;
  readonly status: SourceStatus;
}

/** A supply arrangement. Data: adding one adds no branch anywhere. */
export interface System {
  readonly id: SystemId;
  /** Where its colors are habit. */
  readonly jurisdiction: Jurisdiction;
  readonly kind: SystemKind;
  /** Catalogue code of its name. */
  readonly name: Message;
  /** Circuit roles in phase order, then the grounded conductor, then the equipment grounding conductor. */
  readonly roles: readonly Role[];
  readonly nominal: NominalVoltage;
}
