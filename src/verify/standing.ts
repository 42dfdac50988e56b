import type { ConductorVerdict, Reading } from '../flow';
import { type Belief, judgeReading } from './agreement';
import type { Claim } from './claim';
import { provable } from './claim-provable';
import type { Component } from './infer';
import type { Models } from './models';
import { type CheckNeed, meets } from './required';
import { roleInClaimed } from './same-place';
import { neutralDrops, oneSupply, ratiosOf } from './scale';
import { conductorsOf } from './test-point';
import { judgeTraveler } from './traveler';

/** Least probability that the conductor is what is claimed, with nothing wrong with it, for it to be metered. */
export const PROVED = 0.9;

export interface StandingInput {
  readonly belief: Belief;
  readonly needs: readonly CheckNeed[];
  /** Only counted readings. */
  readonly readings: readonly Reading[];
  readonly components: readonly Component[];
  /** What the map claimed before the readings. */
  readonly original: ReadonlyMap<string, Claim>;
}

function intactProbability(claim: Claim, components: readonly Component[], models: Models): number {
  const component = components.find((c) => c.conductors.includes(claim.conductor));
  return (component?.worlds ?? []).reduce((sum, world) => {
    const state = world.states.get(claim.conductor);
    // A shared neutral is the grounded conductor all the same; how many volts it may stand at, the bands have judged.
    const whole = state?.fault === null || state?.fault === 'shared neutral';
    const same = state !== undefined && whole && roleInClaimed(claim, state, models) === claim.role;
    return same && !world.variant.groundFault ? sum + world.probability : sum;
  }, 0);
}

interface Tally {
  readonly agree: readonly string[];
  readonly contradict: readonly string[];
}

function tally(claim: Claim, { belief, readings }: StandingInput): Tally {
  const own = readings.filter((r) => conductorsOf(r).includes(claim.conductor));
  const judged = own.map((reading) => ({ reading, ...judgeReading(reading, belief) }));
  const agree = judged.filter((j) => j.agreement === 'agrees').map((j) => j.reading.id);
  const contradict = judged.filter((j) => j.agreement === 'contradicts').map((j) => j.reading.id);
  if (claim.role === 'traveler') {
    const partner = [...belief.claims.values()].find(
      (c) => c.role === 'traveler' && c.system === claim.system && c.conductor !== claim.conductor,
    );
    const pair = judgeTraveler(claim.conductor, partner?.conductor ?? null, readings, belief);
    return { agree: [...agree, ...pair.agree], contradict: [...contradict, ...pair.contradict] };
  }
  const fitting = own.filter((r) => agree.includes(r.id));
  return oneSupply(ratiosOf(fitting, belief, neutralDrops(readings, belief)), belief)
    ? { agree, contradict }
    : { agree: [], contradict: [...contradict, ...agree] };
}

/**
 * Standing of one conductor. Metered only when every required check has a counted reading, no counted reading
 * that touches it contradicts, those readings belong to one supply level, and the whole of the readings leaves the
 * claim at least 0.9 probable with nothing wrong. Anything less is by color; any contradiction is disputed, and so is
 * a conductor of which the readings say something else than the photo until that has its own full set.
 */
export function standingOf(claim: Claim, input: StandingInput): ConductorVerdict {
  const { belief, needs, readings } = input;
  const { agree, contradict } = tally(claim, input);
  const needed = needs.filter((n) => n.requiredFor.includes(claim.conductor));
  const missing = needed.filter((n) => !readings.some((r) => meets(r, n))).map((n) => n.id);
  const found = { conductor: claim.conductor, missing, agree, contradict };
  if (contradict.length > 0) return { ...found, standing: 'disputed' };
  const first = input.original.get(claim.conductor);
  const replaced = first !== undefined && (first.role !== claim.role || first.system !== claim.system);
  const complete = needed.length > 0 && missing.length === 0 && provable(claim, belief);
  if (!complete) return { ...found, standing: replaced ? 'disputed' : 'by color' };
  const unanswered = needed.some((n) => !readings.some((r) => meets(r, n) && agree.includes(r.id)));
  const proved = !unanswered && intactProbability(claim, input.components, belief.models) >= PROVED;
  return { ...found, standing: proved ? 'metered' : 'disputed' };
}
