import {
  type Assignment,
  type Finding,
  message,
  type NamedConductor,
  type PhaseMap,
  type Role,
  type RoleProbability,
  type SiteKnowledge,
  type SystemId,
} from '../flow';
import { SYSTEMS } from './data/systems';
import { because } from './explain/because';
import { openRoles } from './explain/collide';
import { eliminated } from './explain/eliminated';
import { habitColors } from './explain/habits';
import { systemKey } from './explain/list';
import { systemsOpen } from './explain/one-color';
import { roleMarginals, see } from './explain/read';
import { recalibrated } from './explain/recalibrate';
import { allFindings } from './findings';
import { type Posterior, posterior, USUAL } from './infer/posterior';
import { makeUnits, type Units } from './infer/units';
import { type Evidence, readEvidence } from './model/evidence';
import { COLOR_CANNOT_DECIDE, COLOR_CEILING, UNMODELED } from './model/priors';
import { isNumbered, letterCeiling, linesByHabit } from './model/site-habit';
import { roleOfTag, TAG_CEILING, tagOf } from './model/tag';
import { isPoleSpace } from './panel/pole';

const MOST_CONDUCTORS = 500;

/** Roles less probable than this are left unnamed. */
const SMALLEST = 0.003;

/**
 * Which conductor is probably what: the joint posterior over the supply systems present, the habits and strictness
 * of the site and the role of every conductor, given color distributions, stripes, tape, bare metal, groups, pole
 * spaces and what the user knows. Color never proves a role: some probability is always left unnamed.
 *
 * The order of the conductors does not matter. Two conductors with the same id, or more than 500 conductors (no
 * photo shows so many; products of their weights would overflow), are an error (RangeError). Where the user names
 * four systems or more, three at a time are weighed. A pole space that no board has (`isPoleSpace`) is left out.
 */
export function identify(conductors: readonly NamedConductor[], site: SiteKnowledge): PhaseMap {
  const knowledge = onBoards(site);
  const sorted = [...conductors].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  for (let i = 1; i < sorted.length; i++) {
    if (sorted[i]!.id === sorted[i - 1]!.id) throw new RangeError(`two conductors are called ${sorted[i]!.id}`);
  }
  if (sorted.length > MOST_CONDUCTORS) throw new RangeError(`${sorted.length} conductors`);
  if (sorted.length === 0) return { systems: [], assignments: [], eliminated: [], findings: [] };
  const evidence = sorted.map(readEvidence);
  const units = makeUnits(
    sorted.map((c) => c.id),
    knowledge,
  );
  const found = posterior(evidence, knowledge, units);
  const raw = sorted.map((c, i): Assignment => ({ conductor: c.id, roles: rolesOf(i, found), because: [] }));
  const open = openRoles(
    sorted.map((c, i) => see(c, raw[i]!)),
    knowledge,
  );
  const honest = raw.map((a, i) => capped(a, open.get(a.conductor)!, units, i, knowledge, found));
  const seen = sorted.map((c, i) => see(c, honest[i]!));
  const explained = new Map(
    honest.map((a, i): [string, Assignment] => [
      a.conductor,
      {
        ...a,
        because: because(i, seen[i]!, seen, found, knowledge, open.get(a.conductor)!),
        ...spaceOf(a.conductor, knowledge),
      },
    ]),
  );
  const mostOfSystem = systemsOpen(seen, knowledge) ? COLOR_CANNOT_DECIDE : 1;
  return {
    systems: [...found.systems]
      .map(([system, probability]) => ({ system, probability: Math.min(mostOfSystem, probability) }))
      .filter((s) => s.probability >= SMALLEST)
      .sort((a, b) => b.probability - a.probability || (a.system < b.system ? -1 : 1)),
    assignments: conductors.map((c) => explained.get(c.id)!),
    eliminated: eliminated(seen, found, knowledge),
    findings: [...allFindings({ seen, found, knowledge }), ...misfit(evidence, knowledge, found, units)],
  };
}

/**
 * Where nothing but color speaks (no pole space, no group, no tag), no role may be surer than `COLOR_CEILING`, and where
 * the conventions leave the look more than one role, or tell the lines apart by habit alone, none surer than
 * `COLOR_CANNOT_DECIDE`; a tag that says the same lifts that to what tags are worth. What is taken away stays unnamed.
 */
function capped(
  a: Assignment,
  open: ReadonlySet<Role>,
  units: Units,
  i: number,
  knowledge: SiteKnowledge,
  { strictness }: Posterior,
): Assignment {
  const top = roleMarginals(a)[0];
  if (!top) return a;
  const loose = units.loose.includes(i);
  const tag = tagOf(a.conductor, knowledge);
  const system = a.roles.find((r) => r.role === top.role)!.system;
  const tagged = tag !== undefined && roleOfTag(tag, system) === top.role;
  const undecided = tagged ? TAG_CEILING : COLOR_CANNOT_DECIDE;
  const most = Math.min(
    loose ? COLOR_CEILING : 1,
    loose && (open.size >= 2 || top.role === ISOLATED_GROUND) ? undecided : 1,
    units.space[i] === 0 && restsOnHabit(system, top.role, knowledge)
      ? tagged
        ? TAG_CEILING
        : letterCeiling(knowledge, strictness.loose + strictness.alike)
      : 1,
  );
  if (top.probability <= most) return a;
  const factor = most / top.probability;
  return {
    ...a,
    roles: a.roles.map((r) => (r.role === top.role ? { ...r, probability: r.probability * factor } : r)),
  };
}

/** The practice that marks it (green with a yellow stripe) is a color of any equipment ground (NEC 250.119). */
const ISOLATED_GROUND: Role = 'isolated ground';

/** An imported record may name space 1,000,000,000; drawing that board would never end. */
const onBoards = (site: SiteKnowledge): SiteKnowledge => ({
  ...site,
  spaces: Object.fromEntries(Object.entries(site.spaces).filter(([, space]) => isPoleSpace(space, site.board))),
});

/** The phase letter is told by habit: no rule gives it its color, no legend is posted for it, and nobody vouched for it. */
function restsOnHabit(system: SystemId, role: Role, knowledge: SiteKnowledge): boolean {
  if (!isNumbered(role) || knowledge.phasesBy === 'color' || !linesByHabit(system)) return false;
  return !knowledge.legend.some((e) => e.system === system && e.role === role);
}

const spaceOf = (id: string, knowledge: SiteKnowledge): { space?: number } => {
  const space = knowledge.spaces[id];
  return space === undefined ? {} : { space };
};

/** A factor of 1000 is not missed for a twentieth of the weight. */
const ROUGH = 0.05;

/** The picture fits other systems this many times better than those the user named (natural log). */
const MISFIT = Math.log(1000);

function misfit(evidence: readonly Evidence[], knowledge: SiteKnowledge, found: Posterior, units: Units): Finding[] {
  if (knowledge.systems.length === 0) return [];
  const open = posterior(evidence, { ...knowledge, systems: [] }, units, { ...USUAL, skip: ROUGH });
  if (open.logEvidence - found.logEvidence < MISFIT) return [];
  const [best] = [...open.systems].sort((a, b) => b[1] - a[1])[0] ?? ['unknown'];
  return [
    {
      code: 'named-system-misfits',
      severity: 'warning',
      message: message('identify.finding.named-system-misfits', { system: systemKey(best) }),
      conductors: [],
    },
  ];
}

function rolesOf(i: number, found: Posterior): RoleProbability[] {
  const width = found.columns.length;
  const roles = found.columns
    .map(({ system, role }, c) => ({ system, role, probability: found.roles[i * width + c]! * (1 - UNMODELED) }))
    .filter((r) => r.probability >= SMALLEST);
  const riders = [...found.systems].reduce(
    (most, [id, p]) => (SYSTEMS[id]?.kind === 'auxiliary' && habitColors(id).size > 1 ? Math.max(most, p) : most),
    0,
  );
  return recalibrated(roles, riders)
    .filter((r) => r.probability >= SMALLEST)
    .sort((a, b) => b.probability - a.probability || (`${a.system}${a.role}` < `${b.system}${b.role}` ? -1 : 1));
}
