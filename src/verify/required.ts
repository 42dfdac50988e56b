import {
  type CheckCondition,
  type Message,
  type MeterFunction,
  message,
  type Reading,
  type Role,
  type SiteKnowledge,
  type TestPoint,
} from '../flow';
import { SYSTEMS } from '../identify';
import { type Claim, companions, isLine } from './claim';
import type { Models } from './models';
import type { SystemModel } from './system-model';
import { answers, at, checkId, conductorsOf, GROUND, NEUTRAL_BAR } from './test-point';

/** A check before it has been given expected values. */
export interface CheckNeed {
  readonly id: string;
  readonly from: TestPoint;
  readonly to: TestPoint;
  readonly third?: TestPoint;
  readonly function: MeterFunction;
  readonly condition?: CheckCondition;
  readonly why: Message;
  readonly requiredFor: readonly string[];
  /** Ids of checks that serve as well: another conductor of the same role, or the pole it hangs on. */
  readonly accepts: readonly string[];
}

/** Does this reading answer this need? */
export const meets = (reading: Reading, need: CheckNeed): boolean =>
  answers(reading, need) || need.accepts.some((id) => answers(reading, { id }));

const AC: MeterFunction = 'AC volts';
/** A coupled ("ghost") voltage can reach 80 to 85 % of the real one on a high-impedance input, so proof loads it. */
const LOADED: MeterFunction = 'AC volts, low impedance';

interface Lead {
  readonly to: TestPoint;
  readonly or?: readonly TestPoint[];
  readonly function: MeterFunction;
  readonly why: string;
  readonly condition?: CheckCondition;
}

class Needs {
  readonly #found = new Map<string, CheckNeed>();

  /** `one`: the conductor the lead is on, where it is not the claimed one itself. */
  add(claim: Claim, lead: Lead, one: Claim = claim): void {
    const from = at(one.conductor);
    const shape = {
      from,
      to: lead.to,
      function: lead.function,
      ...(lead.condition ? { condition: lead.condition } : {}),
    };
    const values = { conductor: one.conductor, role: one.role };
    this.#put({
      ...shape,
      id: checkId(shape),
      why: message(`verify.why.${lead.why}`, values),
      requiredFor: [claim.conductor],
      accepts: (lead.or ?? []).map((to) => checkId({ ...shape, to })),
    });
  }

  rotation(claims: readonly [Claim, Claim, Claim]): void {
    const [a, b, c] = claims;
    const shape = {
      from: at(a.conductor),
      to: at(b.conductor),
      third: at(c.conductor),
      function: 'phase rotation' as const,
    };
    this.#put({
      ...shape,
      id: checkId(shape),
      why: message('verify.why.rotation'),
      requiredFor: conductorsOf(shape),
      accepts: [],
    });
  }

  #put(need: CheckNeed): void {
    const known = this.#found.get(need.id);
    const requiredFor = [...new Set([...(known?.requiredFor ?? []), ...need.requiredFor])];
    const accepts = known ? known.accepts.filter((id) => need.accepts.includes(id)) : need.accepts;
    this.#found.set(need.id, { ...(known ?? need), requiredFor, accepts });
  }

  list(): CheckNeed[] {
    return [...this.#found.values()];
  }
}

interface Site {
  readonly claims: readonly Claim[];
  readonly groups: SiteKnowledge['groups'];
  readonly models: Models;
  readonly motors: boolean;
}

/** Conductors of the system with this role, those of the same circuit first, else in order of the list. */
function partners(claim: Claim, role: Role, site: Site): Claim[] {
  const near = companions(claim.conductor, site.groups);
  return site.claims
    .filter((c) => c.system === claim.system && c.role === role && c.conductor !== claim.conductor)
    .sort((a, b) => Number(near.has(b.conductor)) - Number(near.has(a.conductor)));
}

/** Where the second lead goes, and where it may go as well: a conductor of the role, else the fixed place. */
function partnerOf(claim: Claim, role: Role, site: Site, fixed: TestPoint): Pick<Lead, 'to' | 'or'> {
  const [first, ...rest] = partners(claim, role, site);
  return first ? { to: at(first.conductor), or: [...rest.map((c) => at(c.conductor)), fixed] } : { to: fixed };
}

/** The neutral to read against. Where the circuit is known, its own neutral and no other. */
function neutralOf(claim: Claim, site: Site): Pick<Lead, 'to' | 'or'> {
  const found = partnerOf(claim, 'grounded conductor', site, NEUTRAL_BAR);
  const near = companions(claim.conductor, site.groups);
  return found.to.kind === 'conductor' && near.has(found.to.conductor) ? { to: found.to } : found;
}

const poleOf = (claim: Claim, role: Role): TestPoint => ({ kind: 'pole', system: claim.system, role });

const hasNeutral = (model: SystemModel): boolean => model.points.some((p) => p.role === 'grounded conductor');

function lineNeeds(claim: Claim, model: SystemModel, site: Site, needs: Needs): void {
  const bonded = model.ground === 'bonded';
  if (hasNeutral(model)) {
    needs.add(claim, { ...neutralOf(claim, site), function: LOADED, why: 'line-neutral' });
  }
  needs.add(claim, { to: GROUND, function: AC, why: bonded ? 'line-ground' : 'floating-ground' });
  for (const other of model.points.filter((p) => isLine(p.role) && p.role !== claim.role)) {
    const lead = partnerOf(claim, other.role, site, poleOf(claim, other.role));
    needs.add(claim, { ...lead, function: hasNeutral(model) ? AC : LOADED, why: 'line-line' });
  }
  if (model.alike.some((roles) => roles.includes(claim.role))) {
    needs.add(claim, { to: poleOf(claim, claim.role), function: AC, why: 'own-pole' });
  }
}

function neutralNeeds(claim: Claim, model: SystemModel, site: Site, needs: Needs): void {
  needs.add(claim, { to: GROUND, function: model.current === 'DC' ? 'DC volts' : AC, why: 'neutral-ground' });
  const lines = model.points.filter(
    (p) => p.role !== 'grounded conductor' && p.role !== 'equipment grounding conductor',
  );
  for (const line of lines) {
    const lead = partnerOf(claim, line.role, site, poleOf(claim, line.role));
    needs.add(claim, { ...lead, function: model.current === 'DC' ? 'DC volts' : LOADED, why: 'neutral-line' });
  }
  needs.add(claim, { to: GROUND, function: 'continuity', condition: 'supply off, lifted', why: 'neutral-isolation' });
}

function groundingNeeds(claim: Claim, model: SystemModel, site: Site, needs: Needs): void {
  needs.add(claim, { to: GROUND, function: AC, why: 'grounding-zero' });
  const lines = model.points.filter((p) => isLine(p.role)).map((p) => p.role);
  const [first, ...rest] = lines;
  if (first && model.ground === 'bonded') {
    // Any line will do: it is the grounding conductor that is looked at.
    const all = [first, ...rest].flatMap((role) => partners(claim, role, site)).map((c) => at(c.conductor));
    const places = [...all, ...lines.map((role) => poleOf(claim, role))];
    const [to, ...or] = places;
    if (to) needs.add(claim, { to, or, function: AC, why: 'grounding-line' });
  }
  needs.add(claim, { to: GROUND, function: 'continuity', condition: 'supply off, lifted', why: 'grounding-bond' });
}

function directNeeds(claim: Claim, site: Site, needs: Needs): void {
  const opposite: Role = claim.role === 'positive' ? 'negative' : 'positive';
  const lead = partnerOf(claim, opposite, site, poleOf(claim, opposite));
  needs.add(claim, { ...lead, function: 'DC volts', why: 'poles' });
  needs.add(claim, { to: GROUND, function: 'DC volts', why: 'pole-ground' });
}

/** Neutral that a switched conductor returns to: one of its own circuit, else the bonded bar. */
function returnOf(claim: Claim, site: Site): TestPoint {
  const near = companions(claim.conductor, site.groups);
  const neutral = site.claims.find((c) => c.role === 'grounded conductor' && near.has(c.conductor));
  return neutral ? at(neutral.conductor) : NEUTRAL_BAR;
}

function switchNeeds(claim: Claim, site: Site, needs: Needs): void {
  const to = returnOf(claim, site);
  const lead = { to, function: LOADED };
  if (claim.role === 'switch leg') {
    needs.add(claim, { ...lead, condition: 'switch on', why: 'switch-on' });
    needs.add(claim, { ...lead, condition: 'switch off', why: 'switch-off' });
    const travelers = site.claims.some((c) => c.system === claim.system && c.role === 'traveler');
    if (travelers) needs.add(claim, { ...lead, condition: 'switch on, both switches moved', why: 'switch-both' });
    return;
  }
  for (const one of [claim, ...partners(claim, 'traveler', site).slice(0, 1)]) {
    for (const condition of ['position 1', 'position 2', 'position 1, far switch moved'] as const) {
      needs.add(claim, { to: returnOf(one, site), function: LOADED, condition, why: 'traveler' }, one);
    }
  }
}

function rotationNeeds(site: Site, needs: Needs): void {
  for (const id of new Set(site.claims.map((c) => c.system))) {
    const model = site.models(id);
    if (!model?.rotates) continue;
    // High leg counts as the phase it stands on; the third corner of a corner-grounded delta is the grounded one.
    const order = SYSTEMS[id]?.roles.filter(isLine) ?? [];
    const three = order.map((role) => site.claims.find((c) => c.system === id && c.role === role));
    const [a, b, c] = three;
    if (three.length === 3 && a && b && c) needs.rotation([a, b, c]);
  }
}

/**
 * Every check that must be in before a conductor can be metered, from what is claimed of all of them. Grounded
 * and equipment grounding conductors read alike under voltage, phases of one system read alike to neutral and
 * ground: the lifted-conductor checks and the own-pole checks are there to tell those apart.
 */
export function requiredChecks(site: Site): CheckNeed[] {
  const needs = new Needs();
  for (const claim of site.claims) {
    const model = site.models(claim.system);
    if (!model || claim.role === 'unassigned' || claim.role === 'control') continue;
    if (claim.role === 'equipment grounding conductor') groundingNeeds(claim, model, site, needs);
    else if (claim.role === 'grounded conductor') neutralNeeds(claim, model, site, needs);
    else if (claim.role === 'switch leg' || claim.role === 'traveler') switchNeeds(claim, site, needs);
    else if (model.current === 'DC') directNeeds(claim, site, needs);
    else lineNeeds(claim, model, site, needs);
  }
  if (site.motors) rotationNeeds(site, needs);
  return needs.list();
}
