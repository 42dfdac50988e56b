import type { Check } from '../flow';
import { leadsOf } from './test-point';

export type Probing = Pick<Check, 'from' | 'to' | 'third' | 'function' | 'condition'>;

/** Work of one step in units of reading the display once. Assumed, not timed: only their order matters. */
export const EFFORT = {
  reading: 1,
  /** Each lead that must move. */
  lead: 1,
  /** Turning the dial. */
  dial: 0.5,
  /** Going to a switch and back. */
  switch: 3,
  /** Opening, locking, tagging and testing for absence of voltage before anything may be lifted. */
  shutdown: 30,
  /** Lifting or landing one conductor. */
  lift: 4,
} as const;

const isShutdown = (p: Probing): boolean => p.condition?.startsWith('supply off') === true;

function setup(from: Probing | null, to: Probing): number {
  if (isShutdown(to)) return EFFORT.lift + (from && isShutdown(from) ? 0 : EFFORT.shutdown);
  const back = from && isShutdown(from) ? EFFORT.shutdown : 0;
  return back + (from?.condition === to.condition || to.condition === undefined ? 0 : EFFORT.switch);
}

/** Work to go from one check to the next and read it; moving one lead costs less than moving two. */
export function effort(from: Probing | null, to: Probing): number {
  const here = from ? leadsOf(from) : [];
  const moves = leadsOf(to).filter((lead) => !here.includes(lead)).length;
  const dial = from && from.function === to.function ? 0 : EFFORT.dial;
  return EFFORT.reading + moves * EFFORT.lead + dial + setup(from, to);
}
