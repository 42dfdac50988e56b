import type { Role } from '../flow';
import { type Claim, isLine } from './claim';
import type { Models } from './models';
import { volts } from './phasor';
import type { State } from './state';

/** Two points count as one place, volts: systems that share it cannot be told apart there by any reading. */
const SAME_PLACE = 3;

/**
 * What the role of a state is called in the claimed system, as far as any meter can tell: the A and C lines of a
 * high-leg delta are the two lines of a 120/240 V system, an ungrounded delta whose leakage is even reads like a
 * wye. Null where the claimed system has nothing at that place.
 */
export function roleInClaimed(claim: Claim, state: State, models: Models): Role | null {
  if (state.system === claim.system) return state.role;
  const model = models(claim.system);
  if (!isLine(state.role)) return model?.points.some((p) => p.role === state.role) ? state.role : null;
  const place = models(state.system)?.points.find((p) => p.role === state.role)?.at;
  if (!place) return null;
  return model?.points.find((p) => isLine(p.role) && volts(p.at, place) < SAME_PLACE)?.role ?? null;
}
