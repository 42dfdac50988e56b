import type { Role, SiteKnowledge, SiteLegendEntry, SystemId } from '../../flow';
import { SYSTEMS } from '../data/systems';
import type { Evidence } from '../model/evidence';
import { LEGEND_TRUST, SCHEME_WEIGHT, type Strictness } from '../model/priors';
import { CABLE, FOREIGN, lookRatio, onlyLook, roleLook, type SchemeName, schemesOf } from '../model/role-look';
import { tagOf, tagRatio } from '../model/tag';

export const GROUNDED: Role = 'grounded conductor';
export const GROUND: Role = 'equipment grounding conductor';

/** The circuit roles of a system. */
export interface Roster {
  readonly system: SystemId;
  /** Ungrounded first, then the grounded conductor where there is one; equipment grounding is not among them. */
  readonly roles: readonly Role[];
  /** Number of ungrounded roles. */
  readonly hot: number;
}

/** A system under one scheme on a site of one strictness, weighed against every conductor. */
export interface Member extends Roster {
  /** Place of the system among those known, for keys. */
  readonly number: number;
  readonly scheme: SchemeName;
  /** Probability of the scheme within the system. */
  readonly weight: number;
  /** Likelihood ratio by conductor and role: index i * roles.length + r. */
  readonly ratio: Float64Array;
  /** By conductor: sum over roles of prior times ratio, in a picture of many circuits. */
  readonly circuit: Float64Array;
  /** By conductor: sum over roles of ratio. */
  readonly total: Float64Array;
  /** What a bundle of one role may be; on strict sites only, since a bundle has one color. */
  readonly soles: readonly Sole[];
}

/** A role in one of its looks, and nothing else. */
export interface Sole {
  /** Place of the role. */
  readonly role: number;
  /** Share of the look within the role. */
  readonly share: number;
  /** Likelihood ratio by conductor. */
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
  /** By conductor: mean ratio over the roles. */
  readonly mean: Float64Array;
}

const NUMBERS = new Map(Object.keys(SYSTEMS).map((id, k) => [id, k]));

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

/** Likelihood ratio of what the conductor's tag reads; 1 without a tag. */
function said(id: string, role: Role, system: SystemId, knowledge: SiteKnowledge): number {
  const tag = tagOf(id, knowledge);
  return tag === undefined ? 1 : tagRatio(tag, role, system);
}

export function makeMembers(
  system: SystemId,
  strictness: Strictness,
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
): readonly Member[] {
  const roles = circuitRoles(system);
  const number = NUMBERS.get(system) ?? 0;
  return weighedSchemes(system, knowledge.legend).map(({ scheme, weight }) => {
    const ratio = new Float64Array(evidence.length * roles.length);
    roles.forEach((role, r) => {
      const look = roleLook(system, scheme, role, strictness, knowledge.legend);
      evidence.forEach((e, i) => {
        ratio[i * roles.length + r] = e.presence * lookRatio(e, role, look) * said(e.id, role, system, knowledge);
      });
    });
    const circuit = new Float64Array(evidence.length);
    const total = new Float64Array(evidence.length);
    return {
      system,
      number,
      scheme,
      weight,
      roles,
      hot: roles.filter((role) => role !== GROUNDED).length,
      ratio,
      circuit,
      total,
      soles: strictness === 'strict' ? solesOf(system, scheme, roles, evidence, knowledge) : [],
    };
  });
}

function solesOf(
  system: SystemId,
  scheme: SchemeName,
  roles: readonly Role[],
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
): Sole[] {
  return roles.flatMap((role, r) => {
    const { shares } = roleLook(system, scheme, role, 'strict', knowledge.legend);
    const whole = shares.reduce((sum, s) => sum + s.share, 0);
    return shares.map(({ look, share }): Sole => {
      const alone = onlyLook(look);
      return {
        role: r,
        share: share / whole,
        ratio: Float64Array.from(
          evidence,
          (e) => e.presence * lookRatio(e, role, alone) * said(e.id, role, system, knowledge),
        ),
      };
    });
  });
}

/** Fills the sums over roles of a member, once its ratios are final. `prior` gives the role prior of a conductor. */
export function sumMember(member: Member, prior: (i: number) => Float64Array): void {
  const width = member.roles.length;
  for (let i = 0; i < member.circuit.length; i++) {
    const p = prior(i);
    let weighed = 0;
    let plain = 0;
    for (let r = 0; r < width; r++) {
      const ratio = member.ratio[i * width + r]!;
      weighed += p[r]! * ratio;
      plain += ratio;
    }
    member.circuit[i] = weighed;
    member.total[i] = plain;
  }
}

/** Fills the means of an auxiliary system, once its ratios are final. */
export function sumAuxiliary(auxiliary: Auxiliary): void {
  const width = auxiliary.roles.length;
  for (let i = 0; i < auxiliary.mean.length; i++) {
    let sum = 0;
    for (let r = 0; r < width; r++) sum += auxiliary.ratio[i * width + r]!;
    auxiliary.mean[i] = sum / width;
  }
}

/** `cabled`: by conductor, whether the user said that it lies in a cable, which comes in few colors. */
export function makeAuxiliary(
  system: SystemId,
  strictness: Strictness,
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
  cabled: readonly boolean[],
): Auxiliary {
  const roles = circuitRoles(system);
  const ratio = new Float64Array(evidence.length * roles.length);
  roles.forEach((role, r) => {
    const pulled = roleLook(system, 'habit', role, strictness, knowledge.legend);
    const inCable = roleLook(system, CABLE, role, strictness, knowledge.legend);
    evidence.forEach((e, i) => {
      const look = cabled[i] ? inCable : pulled;
      ratio[i * roles.length + r] = e.presence * lookRatio(e, role, look) * said(e.id, role, system, knowledge);
    });
  });
  return { system, roles, ratio, mean: new Float64Array(evidence.length) };
}

/** `grounding` is a system whose grounding conductor stands for all of the jurisdiction; `scheme`: pulled or in cable. */
export function makeExtras(
  grounding: SystemId,
  scheme: 'habit' | typeof CABLE,
  strictness: Strictness,
  evidence: readonly Evidence[],
  knowledge: SiteKnowledge,
): ExtraRatios {
  const posted = knowledge.legend.find((entry) => entry.role === GROUND);
  const look = posted
    ? roleLook(posted.system, 'site legend', GROUND, strictness, knowledge.legend)
    : roleLook(grounding, scheme, GROUND, strictness, knowledge.legend);
  return {
    ground: Float64Array.from(
      evidence,
      (e) => e.presence * lookRatio(e, GROUND, look) * said(e.id, GROUND, grounding, knowledge),
    ),
    // Something that is no conductor at all looks like anything.
    foreign: Float64Array.from(
      evidence,
      (e) =>
        e.presence * lookRatio(e, 'unassigned', FOREIGN) * said(e.id, 'unassigned', grounding, knowledge) +
        (1 - e.presence),
    ),
  };
}
