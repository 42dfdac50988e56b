import {
  type CheckCondition,
  type Message,
  type MeterFunction,
  message,
  type Role,
  type SiteKnowledge,
  type SystemId,
  type TestPoint,
} from '../flow';
import { SYSTEMS } from '../identify';
import { type Claim, companions, isLine } from './claim';
import type { Models } from './models';
import type { SystemModel } from './system-model';
import { at, checkId, conductorsOf, GROUND, NEUTRAL_BAR } from './test-point';

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
}

const AC: MeterFunction = 'AC volts';
/** A coupled ("ghost") voltage can reach 80 to 85 % of the real one on a high-impedance input, so proof loads it. */
const LOADED: MeterFunction = 'AC volts, low impedance';

interface Lead {
  readonly to: TestPoint;
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
    this.#put({ ...shape, id: checkId(shape), why: message('verify.why.rotation'), requiredFor: conductorsOf(shape) });
  }

  #put(need: CheckNeed): void {
    const known = this.#found.get(need.id);
    const requiredFor = [...new Set([...(known?.requiredFor ?? []), ...need.requiredFor])];
    this.#found.set(need.id, { ...(known ?? need), requiredFor });
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
function partners(claim: Claim, role: Role, site: Site, system: SystemId = claim.system): Claim[] {
  const near = companions(claim.conductor, site.groups);
  return site.claims
    .filter((c) => c.system === system && c.role === role && c.conductor !== claim.conductor)
    .sort((a, b) => Number(near.has(b.conductor)) - Number(near.has(a.conductor)));
}

const placeOf = (claim: Claim | undefined, otherwise: TestPoint): TestPoint =>
  claim ? at(claim.conductor) : otherwise;

const hasNeutral = (model: SystemModel): boolean => model.points.some((p) => p.role === 'grounded conductor');

function lineNeeds(claim: Claim, model: SystemModel, site: Site, needs: Needs): void {
  const bonded = model.ground === 'bonded';
  if (hasNeutral(model)) {
    const neutral = placeOf(partners(claim, 'grounded conductor', site)[0], NEUTRAL_BAR);
    needs.add(claim, { to: neutral, function: LOADED, why: 'line-neutral' });
  }
  needs.add(claim, { to: GROUND, function: AC, why: bonded ? 'line-ground' : 'floating-ground' });
  for (const other of model.points.filter((p) => isLine(p.role) && p.role !== claim.role)) {
    const pole: TestPoint = { kind: 'pole', system: claim.system, role: other.role };
    const to = placeOf(partners(claim, other.role, site)[0], pole);
    needs.add(claim, { to, function: hasNeutral(model) ? AC : LOADED, why: 'line-line' });
  }
  if (model.alike.some((roles) => roles.includes(claim.role))) {
    const own: TestPoint = { kind: 'pole', system: claim.system, role: claim.role };
    needs.add(claim, { to: own, function: AC, why: 'own-pole' });
  }
}

function neutralNeeds(claim: Claim, model: SystemModel, site: Site, needs: Needs): void {
  needs.add(claim, { to: GROUND, function: model.current === 'DC' ? 'DC volts' : AC, why: 'neutral-ground' });
  const lines = model.points.filter(
    (p) => p.role !== 'grounded conductor' && p.role !== 'equipment grounding conductor',
  );
  for (const line of lines) {
    const pole: TestPoint = { kind: 'pole', system: claim.system, role: line.role };
    const to = placeOf(partners(claim, line.role, site)[0], pole);
    needs.add(claim, { to, function: model.current === 'DC' ? 'DC volts' : LOADED, why: 'neutral-line' });
  }
  needs.add(claim, { to: GROUND, function: 'continuity', condition: 'supply off, lifted', why: 'neutral-isolation' });
}

function groundingNeeds(claim: Claim, model: SystemModel, site: Site, needs: Needs): void {
  needs.add(claim, { to: GROUND, function: AC, why: 'grounding-zero' });
  const line = model.points.find((p) => isLine(p.role));
  if (line && model.ground === 'bonded') {
    const pole: TestPoint = { kind: 'pole', system: claim.system, role: line.role };
    const to = placeOf(partners(claim, line.role, site)[0], pole);
    needs.add(claim, { to, function: AC, why: 'grounding-line' });
  }
  needs.add(claim, { to: GROUND, function: 'continuity', condition: 'supply off, lifted', why: 'grounding-bond' });
}

function directNeeds(claim: Claim, site: Site, needs: Needs): void {
  const opposite: Role = claim.role === 'positive' ? 'negative' : 'positive';
  const pole: TestPoint = { kind: 'pole', system: claim.system, role: opposite };
  needs.add(claim, { to: placeOf(partners(claim, opposite, site)[0], pole), function: 'DC volts', why: 'poles' });
  needs.add(claim, { to: GROUND, function: 'DC volts', why: 'pole-ground' });
}

/** Neutral that a switched conductor returns to: one of its own circuit, else the bonded bar. */
function returnOf(claim: Claim, site: Site): TestPoint {
  const near = companions(claim.conductor, site.groups);
  const neutral = site.claims.find((c) => c.role === 'grounded conductor' && near.has(c.conductor));
  return placeOf(neutral, NEUTRAL_BAR);
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

export type { Site as ClaimedSite };
