import type { Assignment, PhaseMap, RoleProbability, SystemPosterior } from '../flow';
import type { Claim } from './claim';
import type { Component } from './infer';
import type { Models } from './models';
import { roleInClaimed } from './same-place';

/** Probabilities below this are not listed. */
const LEAST = 0.0005;

/**
 * Roles of one conductor after the readings, most probable first. What no reading can tell from the photo's claim
 * goes by the claim's name: readings do not turn an ungrounded delta into a wye, nor back.
 */
function rolesOf(claim: Claim, component: Component, models: Models): RoleProbability[] {
  const { conductor } = claim;
  const sums = new Map<string, RoleProbability>();
  for (const world of component.worlds) {
    const state = world.states.get(conductor);
    if (!state) continue;
    const alike = roleInClaimed(claim, state, models) === claim.role;
    const { system, role } = alike ? claim : state;
    const key = `${system} ${role}`;
    const so = sums.get(key)?.probability ?? 0;
    sums.set(key, { system, role, probability: so + world.probability });
  }
  return [...sums.values()].filter((r) => r.probability >= LEAST).sort((a, b) => b.probability - a.probability);
}

function systemsOf(assignments: readonly Assignment[]): SystemPosterior[] {
  const absent = new Map<string, number>();
  for (const { roles } of assignments) {
    const own = new Map<string, number>();
    for (const r of roles) own.set(r.system, (own.get(r.system) ?? 0) + r.probability);
    for (const [id, p] of own) absent.set(id, (absent.get(id) ?? 1) * (1 - Math.min(p, 1)));
  }
  return [...absent]
    .map(([system, none]) => ({ system, probability: 1 - none }))
    .sort((a, b) => b.probability - a.probability);
}

/** The phase map after the readings; conductors that no reading touches keep what the photo said of them. */
export function updatedMap(
  map: PhaseMap,
  components: readonly Component[],
  original: ReadonlyMap<string, Claim>,
  models: Models,
): PhaseMap {
  if (components.length === 0) return map;
  const assignments = map.assignments.map((assignment): Assignment => {
    const component = components.find((c) => c.conductors.includes(assignment.conductor));
    const claim = original.get(assignment.conductor);
    return component && claim ? { ...assignment, roles: rolesOf(claim, component, models) } : assignment;
  });
  return { ...map, assignments, systems: systemsOf(assignments) };
}
