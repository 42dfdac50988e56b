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

/** Does it need the supply off? */
export const isShutdown = (p: Probing): boolean => p.condition?.startsWith('supply off') === true;

function setup(from: Probing | null, to: Probing): number {
  if (isShutdown(to)) return EFFORT.lift + (from && isShutdown(from) ? 0 : EFFORT.shutdown);
  const back = from && isShutdown(from) ? EFFORT.shutdown : 0;
  return back + (from?.condition === to.condition || to.condition === undefined ? 0 : EFFORT.switch);
}

/** A check with the places of its leads worked out. */
export interface Placed {
  readonly probing: Probing;
  readonly leads: readonly string[];
}

export const placed = (probing: Probing): Placed => ({ probing, leads: leadsOf(probing) });

/** `effort` for many pairs of the same checks. */
export function effortBetween(from: Placed | null, to: Placed): number {
  const here = from?.leads ?? [];
  const moves = to.leads.filter((lead) => !here.includes(lead)).length;
  const dial = from && from.probing.function === to.probing.function ? 0 : EFFORT.dial;
  return EFFORT.reading + moves * EFFORT.lead + dial + setup(from?.probing ?? null, to.probing);
}

/** Work to go from one check to the next and read it; moving one lead costs less than moving two. */
export const effort = (from: Probing | null, to: Probing): number => effortBetween(from && placed(from), placed(to));
