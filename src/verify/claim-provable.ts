import type { Belief } from './agreement';
import type { Claim } from './claim';

/** Can any list of checks known here prove this claim? A traveler only together with its partner. */
export function provable(claim: Claim, belief: Pick<Belief, 'claims' | 'models'>): boolean {
  if (claim.role === 'unassigned' || claim.role === 'control' || belief.models(claim.system) === null) return false;
  if (claim.role !== 'traveler') return true;
  return [...belief.claims.values()].some(
    (c) => c.role === 'traveler' && c.system === claim.system && c.conductor !== claim.conductor,
  );
}
