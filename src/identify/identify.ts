import type { Assignment, NamedConductor, PhaseMap, RoleProbability, SiteKnowledge } from '../flow';
import { type Posterior, posterior } from './infer/posterior';
import { makeUnits } from './infer/units';
import { readEvidence } from './model/evidence';
import { UNMODELED } from './model/priors';

/** Roles less probable than this are left unnamed. */
const SMALLEST = 0.003;

/**
 * Which conductor is probably what: the joint posterior over the supply systems present, the habits and strictness
 * of the site and the role of every conductor, given color distributions, stripes, tape, bare metal, groups, pole
 * spaces and what the user knows. Color never proves a role: some probability is always left unnamed.
 *
 * The order of the conductors does not matter. Two conductors with the same id are an error (RangeError).
 */
export function identify(conductors: readonly NamedConductor[], knowledge: SiteKnowledge): PhaseMap {
  const sorted = [...conductors].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  for (let i = 1; i < sorted.length; i++) {
    if (sorted[i]!.id === sorted[i - 1]!.id) throw new RangeError(`two conductors are called ${sorted[i]!.id}`);
  }
  if (sorted.length === 0) return { systems: [], assignments: [], eliminated: [], findings: [] };
  const evidence = sorted.map(readEvidence);
  const units = makeUnits(
    sorted.map((c) => c.id),
    knowledge,
  );
  const found = posterior(evidence, knowledge, units);
  const index = new Map(sorted.map((c, i) => [c.id, i]));
  return {
    systems: [...found.systems]
      .map(([system, probability]) => ({ system, probability }))
      .sort((a, b) => b.probability - a.probability || (a.system < b.system ? -1 : 1)),
    assignments: conductors.map((c) => assignment(c, index.get(c.id)!, found, knowledge)),
    eliminated: [],
    findings: [],
  };
}

function assignment(c: NamedConductor, i: number, found: Posterior, knowledge: SiteKnowledge): Assignment {
  const space = knowledge.spaces[c.id];
  return { conductor: c.id, roles: rolesOf(i, found), because: [], ...(space === undefined ? {} : { space }) };
}

function rolesOf(i: number, found: Posterior): RoleProbability[] {
  const width = found.columns.length;
  return found.columns
    .map(({ system, role }, c) => ({ system, role, probability: found.roles[i * width + c]! * (1 - UNMODELED) }))
    .filter((r) => r.probability >= SMALLEST)
    .sort((a, b) => b.probability - a.probability || (`${a.system}${a.role}` < `${b.system}${b.role}` ? -1 : 1));
}
