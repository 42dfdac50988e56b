import type { CheckCondition, Role, SystemId } from '../flow';
import type { Phasor } from './phasor';

/** What can be wrong with one conductor. `null` elsewhere: it is as its role says. */
export type ConductorFault =
  | 'disconnected'
  | 'open neutral'
  | 'shared neutral'
  | 'lost phase, fed back'
  | 'grounded line';

/** Potential under a condition; `open`: held by nothing, takes up what couples into it; `ground`: as ground is. */
export type Potential = Phasor | 'open' | 'ground';

/** One possibility for one conductor: what it is, what is wrong with it, and the potential that follows. */
export interface State {
  readonly system: SystemId;
  readonly role: Role;
  readonly fault: ConductorFault | null;
  /** Share of the role's probability that this possibility gets. */
  readonly weight: number;
  /** Standard deviation of the potential, volts: a fault holds a conductor somewhere near, not at a known voltage. */
  readonly blur: number;
  readonly potential: (condition: CheckCondition | undefined) => Potential;
  /** Lifted, supply off: is it bonded to ground at the other end? */
  readonly bonded: boolean;
}
