import type { Role, SiteKnowledge, SiteLegendEntry, SystemId } from '../../flow';
import { SYSTEMS } from '../data/systems';
import type { Evidence } from '../model/evidence';
import { LEGEND_TRUST, SCHEME_WEIGHT, type Strictness } from '../model/priors';
import { FOREIGN, lookRatio, roleLook, type SchemeName, schemesOf } from '../model/role-look';

export const GROUNDED: Role = 'grounded conductor';
export const GROUND: Role = 'equipment grounding conductor';

/** A system under one scheme on a site of one strictness, weighed against every conductor. */
export interface Member {
  readonly system: SystemId;
  readonly scheme: SchemeName;
  /** Probability of the scheme within the system. */
  readonly weight: number;
  /** Circuit roles: ungrounded first, then the grounded conductor where there is one; grounding is not among them. */
  readonly roles: readonly Role[];
  readonly hot: number;
  /** Likelihood ratio by conductor and role: index i * roles.length + r. */
  readonly ratio: Float64Array;
}

/** Roles that ride along with any system: equipment grounding, foreign, auxiliary. */
export interface ExtraRatios {
  readonly ground: Float64Array;
  readonly foreign: Float64Array;
}

export interface Auxiliary {
  readonly system: SystemId;
  readonly roles: readonly Role[];
  readonly ratio: Float64Array;
}

export const circuitRoles = (system: SystemId): readonly Role[] =>
  (SYSTEMS[system]?.roles ?? []).filter((role) => role !== GROUND);

/** Schemes of a system with their probabilities; the site legend, where it speaks of the system, comes first. */
export function weighedSchemes(
  system: SystemId,
  legend: readonly SiteLegendEntry[],
): readonly { readonly scheme: SchemeName; readonly weight: number }[] {
  const habits = schemesOf(system);
  const posted = legend.some((entry) => entry.system === system);
  let sum = 0;
  for (const scheme of habits) sum += SCHEME_WEIGHT[scheme];
  const left = posted ? 1 - LEGEND_TRUST : 1;
  const out: { scheme: SchemeName; weight: number }[] = habits.map((scheme) => ({
    scheme,
    weight: (left * SCHEME_WEIGHT[scheme]) / sum,
  }));
  if (posted) out.unshift({ scheme: 'site legend', weight: LEGEND_TRUST });
  return out;
}

export function makeMembers(
  system: SystemId,
  strictness: Strictness,
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
): readonly Member[] {
  const roles = circuitRoles(system);
  return weighedSchemes(system, knowledge.legend).map(({ scheme, weight }) => {
    const ratio = new Float64Array(evidence.length * roles.length);
    roles.forEach((role, r) => {
      const look = roleLook(system, scheme, role, strictness, knowledge.legend);
      evidence.forEach((e, i) => {
        ratio[i * roles.length + r] = e.presence * lookRatio(e, role, look);
      });
    });
    return { system, scheme, weight, roles, hot: roles.filter((role) => role !== GROUNDED).length, ratio };
  });
}

export function makeAuxiliary(
  system: SystemId,
  strictness: Strictness,
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
): Auxiliary {
  const roles = circuitRoles(system);
  const ratio = new Float64Array(evidence.length * roles.length);
  roles.forEach((role, r) => {
    const look = roleLook(system, 'habit', role, strictness, knowledge.legend);
    evidence.forEach((e, i) => {
      ratio[i * roles.length + r] = e.presence * lookRatio(e, role, look);
    });
  });
  return { system, roles, ratio };
}

/** `grounding` is a system whose grounding conductor stands for all of the jurisdiction. */
export function makeExtras(
  grounding: SystemId,
  strictness: Strictness,
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
): ExtraRatios {
  const posted = knowledge.legend.find((entry) => entry.role === GROUND);
  const look = posted
    ? roleLook(posted.system, 'site legend', GROUND, strictness, knowledge.legend)
    : roleLook(grounding, 'habit', GROUND, strictness, knowledge.legend);
  return {
    ground: Float64Array.from(evidence, (e) => e.presence * lookRatio(e, GROUND, look)),
    // Something that is no conductor at all looks like anything.
    foreign: Float64Array.from(evidence, (e) => e.presence * lookRatio(e, 'unassigned', FOREIGN) + (1 - e.presence)),
  };
}
