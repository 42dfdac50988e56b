import type { SiteKnowledge } from '../../src/flow';
import { type Hypothesis, isSwitched, requiredParts } from '../../src/identify/infer/hypothesis';
import { GROUND } from '../../src/identify/infer/members';
import { hypotheses, UNKNOWN_SYSTEM } from '../../src/identify/infer/posterior';
import { circuitPrior, extraMixture, extraShares } from '../../src/identify/infer/role-prior';
import { extrasProbability, shapeOf } from '../../src/identify/infer/shapes';
import type { Units } from '../../src/identify/infer/units';
import type { Evidence } from '../../src/identify/model/evidence';
import { MANY_MEAN } from '../../src/identify/model/priors';

/**
 * The posterior by writing out every role of every conductor under every hypothesis: no dynamic program, no
 * inclusion and exclusion, no pruning. Shares only the definitions of the priors with the program.
 */
export interface BruteForce {
  /** "conductor index/system/role" to probability. */
  readonly roles: ReadonlyMap<string, number>;
  readonly systems: ReadonlyMap<string, number>;
}

interface Choice {
  readonly kind: 'circuit' | 'ground' | 'foreign' | 'auxiliary';
  readonly main: number;
  readonly role: number;
}

export function bruteForce(evidence: readonly Evidence[], knowledge: SiteKnowledge, units: Units): BruteForce {
  const roles = new Map<string, number>();
  const systems = new Map<string, number>();
  let total = 0;
  const add = (map: Map<string, number>, key: string, w: number): void => void map.set(key, (map.get(key) ?? 0) + w);
  for (const h of hypotheses(evidence, knowledge, units).list) {
    const choices: Choice[] = [
      ...h.mains.flatMap((m, main) => m.roles.map((_, role): Choice => ({ kind: 'circuit', main, role }))),
      { kind: 'ground', main: -1, role: 0 },
      { kind: 'foreign', main: -1, role: 0 },
      ...(h.auxiliary?.roles ?? []).map((_, role): Choice => ({ kind: 'auxiliary', main: -1, role })),
    ];
    const pick: Choice[] = [];
    const walk = (): void => {
      if (pick.length < evidence.length) {
        for (const c of choices) {
          pick.push(c);
          walk();
          pick.pop();
        }
        return;
      }
      const w = h.prior * density(h, pick, units);
      if (w === 0) return;
      total += w;
      for (const m of h.mains) add(systems, m.system, w);
      if (h.auxiliary) add(systems, h.auxiliary.system, w);
      pick.forEach((c, i) => {
        if (c.kind === 'circuit') add(roles, `${i}/${h.mains[c.main]!.system}/${h.mains[c.main]!.roles[c.role]}`, w);
        else if (c.kind === 'auxiliary') add(roles, `${i}/${h.auxiliary!.system}/${h.auxiliary!.roles[c.role]}`, w);
        else if (c.kind === 'foreign') add(roles, `${i}/${UNKNOWN_SYSTEM}/unassigned`, w);
        else for (const [k, m] of h.mains.entries()) add(roles, `${i}/${m.system}/${GROUND}`, w * h.mix[k]!);
      });
    };
    walk();
  }
  for (const map of [roles, systems]) for (const [k, w] of map) map.set(k, w / total);
  return { roles, systems };
}

function ratio(h: Hypothesis, i: number, c: Choice): number {
  if (c.kind === 'ground') return h.extras.ground[i]!;
  if (c.kind === 'foreign') return h.extras.foreign[i]!;
  const sole = c.kind === 'circuit' ? h.mains[c.main]!.soles[h.sole] : undefined;
  if (sole) return sole.ratio[i]!;
  const table = c.kind === 'auxiliary' ? h.auxiliary! : h.mains[c.main]!;
  return table.ratio[i * table.roles.length + c.role]!;
}

/** Prior of the roles times likelihood ratios, zero unless every required part is seen. */
function density(h: Hypothesis, pick: readonly Choice[], units: Units): number {
  let seen = 0;
  for (const c of pick) seen |= c.kind === 'circuit' ? 1 << c.main : c.kind === 'auxiliary' ? 8 : 0;
  const required = requiredParts(h);
  if ((seen & required) !== required) return 0;
  let p = 1;
  if (units.loose.length > 0) {
    p *=
      h.structure === 'many'
        ? many(h, units.loose, pick, units, -1)
        : set(h, units.loose, pick, units, [...h.mains.keys()]);
    if (h.structure === 'many') p *= (1 / MANY_MEAN) * (1 - 1 / MANY_MEAN) ** (units.loose.length - 1);
  }
  for (const block of units.blocks) {
    let sum = 0;
    h.mains.forEach((_, m) => {
      const share = h.mix[m]!;
      sum +=
        share *
        (block.mode === 'set'
          ? set(h, block.conductors, pick, units, [m], block.cabled)
          : many(h, block.conductors, pick, units, m));
    });
    p *= sum;
  }
  return p;
}

function many(h: Hypothesis, list: readonly number[], pick: readonly Choice[], units: Units, only: number): number {
  let p = 1;
  for (const i of list) {
    const c = pick[i]!;
    const pole = units.onPole[i]!;
    const extra = extraShares(h, pole);
    if (c.kind === 'circuit') {
      if (only >= 0 && only !== c.main) return 0;
      const sole = h.mains[c.main]!.soles[h.sole];
      const prior = sole
        ? Number(c.role === sole.role)
        : circuitPrior(h.mains[c.main]!, units.space[i]!, pole, units.board)[c.role]!;
      p *= (1 - extra.ground - extra.foreign - extra.auxiliary) * (only >= 0 ? 1 : h.mix[c.main]!) * prior;
    } else if (c.kind === 'auxiliary') p *= extra.auxiliary / h.auxiliary!.roles.length;
    else p *= c.kind === 'ground' ? extra.ground : extra.foreign;
    p *= ratio(h, i, c);
  }
  return p;
}

function set(
  h: Hypothesis,
  list: readonly number[],
  pick: readonly Choice[],
  units: Units,
  mains: readonly number[],
  cabled = false,
): number {
  const masks = h.mains.map(() => 0);
  let p = 1;
  let extras = 0;
  for (const i of list) {
    const c = pick[i]!;
    const pole = units.onPole[i]!;
    const mixture = extraMixture(h, pole);
    if (c.kind === 'circuit') {
      if (!mains.includes(c.main) || masks[c.main]! & (1 << c.role)) return 0;
      masks[c.main]! |= 1 << c.role;
      // A conductor on a breaker is ungrounded but for one in a hundred.
      if (pole && h.mains[c.main]!.roles[c.role] === 'grounded conductor') p *= 0.01;
    } else {
      extras++;
      if (c.kind === 'auxiliary') p *= mixture.auxiliary / h.auxiliary!.roles.length;
      else p *= c.kind === 'ground' ? mixture.ground : mixture.foreign;
    }
    p *= ratio(h, i, c);
  }
  for (const m of mains) p *= shapeOf(h.mains[m]!, isSwitched(h), cabled)[masks[m]!]!;
  p *= extrasProbability(extras, h.auxiliary !== null, cabled && isSwitched(h));
  for (let k = extras + 1; k <= list.length; k++) p /= k;
  return p;
}
