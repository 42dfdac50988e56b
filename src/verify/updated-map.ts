import type { Assignment, PhaseMap, RoleProbability, SystemId, SystemPosterior } from '../flow';
import { SYSTEMS } from '../identify';
import type { Claim } from './claim';
import type { Component, World } from './infer';
import type { Models } from './models';
import { roleInClaimed } from './same-place';

/** Probabilities below this are not listed. */
const LEAST = 0.0005;

/**
 * System and role of a conductor in one world. What no reading can tell from the photo's claim goes by the claim's
 * name: readings do not turn an ungrounded delta into a wye, nor back.
 */
function named(claim: Claim, world: World, models: Models): Pick<RoleProbability, 'system' | 'role'> | null {
  const state = world.states.get(claim.conductor);
  if (!state) return null;
  const { system, role } = roleInClaimed(claim, state, models) === claim.role ? claim : state;
  return { system, role };
}

/** Roles of one conductor after the readings, most probable first. */
function rolesOf(claim: Claim, component: Component, models: Models): RoleProbability[] {
  const sums = new Map<string, RoleProbability>();
  for (const world of component.worlds) {
    const state = named(claim, world, models);
    if (!state) continue;
    const key = `${state.system} ${state.role}`;
    const so = sums.get(key)?.probability ?? 0;
    sums.set(key, { ...state, probability: so + world.probability });
  }
  return [...sums.values()].filter((r) => r.probability >= LEAST).sort((a, b) => b.probability - a.probability);
}

/** Probability that at least one conductor of a component belongs to a system, by system. */
function presentIn(
  { conductors, worlds }: Component,
  original: ReadonlyMap<string, Claim>,
  models: Models,
): Map<SystemId, number> {
  const present = new Map<SystemId, number>();
  for (const world of worlds) {
    const claims = conductors.flatMap((id) => original.get(id) ?? []);
    const here = new Set(claims.flatMap((claim) => named(claim, world, models)?.system ?? []));
    for (const system of here) present.set(system, (present.get(system) ?? 0) + world.probability);
  }
  return present;
}

/**
 * Probability that at least one of the conductors that no reading touches belongs to a system. At most what the photo
 * gave the system: conductors of one photo are no independent witnesses, and half a percent on each of forty would
 * otherwise make a system of nothing.
 */
function presentUntouched(map: PhaseMap, system: SystemId, touched: ReadonlySet<string>): number {
  let none = 1;
  for (const { conductor, roles } of map.assignments) {
    if (touched.has(conductor)) continue;
    const own = roles.reduce((sum, r) => sum + (r.system === system ? r.probability : 0), 0);
    none *= 1 - Math.min(own, 1);
  }
  return Math.min(1 - none, map.systems.find((s) => s.system === system)?.probability ?? 0);
}

/** What is left unassigned is of no system. Components are measured apart, so each is a witness of its own. */
function systemsOf(
  map: PhaseMap,
  components: readonly Component[],
  original: ReadonlyMap<string, Claim>,
  models: Models,
): SystemPosterior[] {
  const touched = new Set(components.flatMap((c) => c.conductors));
  const measured = components.map((c) => presentIn(c, original, models));
  const known = new Set([...map.systems.map((s) => s.system), ...measured.flatMap((m) => [...m.keys()])]);
  return [...known]
    .filter((system) => SYSTEMS[system] !== undefined)
    .map((system) => {
      const none = measured.reduce((left, m) => left * (1 - Math.min(m.get(system) ?? 0, 1)), 1);
      return { system, probability: 1 - none * (1 - presentUntouched(map, system, touched)) };
    })
    .filter((s) => s.probability >= LEAST)
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
  return { ...map, assignments, systems: systemsOf(map, components, original, models) };
}
