import type { Role, SystemId } from '../flow';
import type { BandRuleId } from './band-rule';
import type { Phasor } from './phasor';

/** One conductor of a system and its voltage, relative to ground, or to the middle where nothing is grounded. */
export interface ModelPoint {
  readonly role: Role;
  readonly at: Phasor;
}

/** A supply arrangement as voltages. Everything the room expects of a meter is computed from these points. */
export interface SystemModel {
  readonly id: SystemId;
  readonly current: 'AC' | 'DC';
  /** `floating`: no conductor is bonded to ground; voltages to ground come from leakage and are unstable. */
  readonly ground: 'bonded' | 'floating';
  readonly points: readonly ModelPoint[];
  readonly band: BandRuleId;
  /** Three phases that can feed a motor: the order A-B-C can be checked. */
  readonly rotates: boolean;
  /** Roles that voltages cannot tell from one another; only a marked pole can. */
  readonly alike: readonly (readonly Role[])[];
  /** Highest nominal voltage between any two points or to ground, volts. */
  readonly maxVolts: number;
}
