import type { PhaseMap, Reading, RoleProbability } from '../flow';
import { CUT, type Found, logSum, prepare, search } from './beam';
import { kindOf } from './kind';
import type { Meter } from './meter';
import type { Models, PostedVolts } from './models';
import type { State } from './state';
import { conductorsOf } from './test-point';
import { type Variant, type VariantCore, variantsOf } from './variant';

/** One way the measured conductors can be, with its share of the probability. */
export interface World {
  readonly variant: Variant;
  readonly states: ReadonlyMap<string, State>;
  readonly probability: number;
  /** Index into LEVELS of the likeliest supply level. */
  readonly level: number;
}

/** Conductors joined by readings, the readings, and the ways they can be, likeliest first; probabilities sum to 1. */
export interface Component {
  readonly conductors: readonly string[];
  readonly readings: readonly Reading[];
  readonly worlds: readonly World[];
}

/** Least probability that a map leaves for roles it did not name, spread over all of them; more where it leaves more. */
const UNNAMED = 0.02;

/** Connected groups of conductors; readings between fixed places belong to every group. */
function componentsOf(readings: readonly Reading[]): { conductors: string[]; readings: Reading[] }[] {
  const root = new Map<string, string>();
  const find = (id: string): string => {
    const up = root.get(id) ?? id;
    return up === id ? id : find(up);
  };
  for (const reading of readings) {
    const ids = conductorsOf(reading);
    for (const id of ids) if (!root.has(id)) root.set(id, id);
    for (const id of ids.slice(1)) root.set(find(id), find(ids[0] ?? id));
  }
  const groups = new Map<string, string[]>();
  for (const id of root.keys()) groups.set(find(id), [...(groups.get(find(id)) ?? []), id]);
  const survey = readings.filter((r) => conductorsOf(r).length === 0);
  return [...groups.values()].map((conductors) => ({
    conductors,
    readings: [...survey, ...readings.filter((r) => conductorsOf(r).some((id) => conductors.includes(id)))],
  }));
}

/** Those measured most come first, then always one that is tied to those already placed. */
function order(conductors: readonly string[], readings: readonly Reading[]): string[] {
  const ties = (id: string, placed: ReadonlySet<string>): number =>
    readings.filter((r) => {
      const ids = conductorsOf(r);
      return ids.includes(id) && ids.every((other) => other === id || placed.has(other));
    }).length;
  const placed = new Set<string>();
  while (placed.size < conductors.length) {
    const left = conductors.filter((id) => !placed.has(id));
    const next = left.reduce((best, id) => (ties(id, placed) > ties(best, placed) ? id : best));
    placed.add(next);
  }
  return [...placed];
}

/** A system to which the map gives this conductor less than this is taken to be one the photo could not see. */
const UNSEEN_SYSTEM = 0.05;

/**
 * Log prior of each state for one conductor. In systems the map names, its own probabilities; in systems it gave
 * nothing to, a conductor is of the same kind (line, neutral, grounding) as the map says, any role of the kind
 * alike: a wrong guess at the system must be paid for once, not once per conductor.
 */
export function statePrior(map: PhaseMap, conductor: string, { states, kinds }: VariantCore): Float64Array {
  const roles = map.assignments.find((a) => a.conductor === conductor)?.roles ?? [];
  const sum = (keep: (r: RoleProbability) => boolean): number =>
    roles.filter(keep).reduce((total, r) => total + Math.max(r.probability, 0), 0);
  const unnamed = Math.max(UNNAMED, 1 - sum(() => true));
  const ofKind = new Map<string, number>();
  for (const r of roles) ofKind.set(kindOf(r.role), (ofKind.get(kindOf(r.role)) ?? 0) + Math.max(r.probability, 0));
  const share = kinds.map(({ system, role, alike }) => {
    const seen = sum((r) => r.system === system) >= UNSEEN_SYSTEM;
    if (seen) return sum((r) => r.system === system && r.role === role);
    const kind = kindOf(role);
    return kind === 'other' ? 0 : (ofKind.get(kind) ?? 0) / alike;
  });
  return Float64Array.from(states, (s) => {
    const kind = kinds.findIndex((k) => k.system === s.system && k.role === s.role);
    return Math.log(((share[kind] ?? 0) + unnamed / kinds.length) * s.weight);
  });
}

/**
 * Every conductor that leaves the number of each kind as the map has it out of place costs this factor: two
 * exchanged conductors are likelier than a circuit with two grounding conductors and no neutral. An assumption.
 */
const OUT_OF_PLACE = 0.1;

export function logStructure(map: PhaseMap, conductors: readonly string[], states: readonly State[]): number {
  const count = new Map<string, number>();
  for (const id of conductors) {
    const first = map.assignments.find((a) => a.conductor === id)?.roles[0];
    if (first) count.set(kindOf(first.role), (count.get(kindOf(first.role)) ?? 0) + 1);
  }
  for (const s of states) count.set(kindOf(s.role), (count.get(kindOf(s.role)) ?? 0) - 1);
  const surplus = [...count.values()].reduce((total, n) => total + Math.max(-n, 0), 0);
  return surplus * Math.log(OUT_OF_PLACE);
}

const bestLevel = (levels: Float64Array): number => levels.indexOf(Math.max(...levels));

interface Group {
  readonly conductors: readonly string[];
  readonly readings: readonly Reading[];
}

function worldsOf(map: PhaseMap, { conductors, readings }: Group, variants: readonly Variant[], meter: Meter): World[] {
  const all: { variant: Variant; found: Found; score: number }[] = [];
  let best = Number.NEGATIVE_INFINITY;
  for (const variant of variants) {
    const priorOf = (id: string): Float64Array => statePrior(map, id, variant);
    const one = prepare(variant, conductors, readings, priorOf, meter, best - CUT);
    if (!one) continue;
    for (const found of search(one)) {
      const chosen = found.chosen.flatMap((c) => one.variant.states[c] ?? []);
      const score = logSum(found.levels) + logStructure(map, conductors, chosen);
      best = Math.max(best, score);
      all.push({ variant: one.variant, found, score });
    }
  }
  const kept = all.filter((a) => a.score > best - CUT).sort((a, b) => b.score - a.score);
  const sum = kept.reduce((s, a) => s + Math.exp(a.score - best), 0);
  return kept.map(({ variant, found, score }) => ({
    variant,
    states: new Map(
      conductors.flatMap((id, i) => {
        const state = variant.states[found.chosen[i] ?? -1];
        return state ? [[id, state] as const] : [];
      }),
    ),
    probability: Math.exp(score - best) / sum,
    level: bestLevel(found.levels),
  }));
}

/** Groups weighed before, by what their weighing rests on besides the map: a new reading changes one group of many. */
const WEIGHED = new WeakMap<PhaseMap, Map<string, Component>>();
const MOST_WEIGHED = 60;

/**
 * The ways the measured conductors can be, given the map and the counted readings: for each group of conductors
 * joined by readings, possible worlds with probabilities. Exact up to the beam (`beam.ts`); checked against plain
 * enumeration in the tests. `posted` are the volts that `models` was made with.
 */
export function infer(
  map: PhaseMap,
  readings: readonly Reading[],
  models: Models,
  meter: Meter,
  posted: PostedVolts = {},
): Component[] {
  const variants = variantsOf(map, models);
  const known = WEIGHED.get(map) ?? new Map<string, Component>();
  WEIGHED.set(map, known);
  return componentsOf(readings).map((group) => {
    const key = JSON.stringify([group.readings, meter, posted]);
    const found = known.get(key);
    if (found) return found;
    const conductors = order(group.conductors, group.readings);
    const { readings: own } = group;
    const made = { conductors, readings: own, worlds: worldsOf(map, { conductors, readings: own }, variants, meter) };
    if (known.size >= MOST_WEIGHED) known.clear();
    known.set(key, made);
    return made;
  });
}
