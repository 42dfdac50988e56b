import type { PhaseMap, Reading } from '../flow';
import { LEVEL_LOG_PRIOR, logLikelihood, sightKey } from './likelihood';
import type { Meter } from './meter';
import type { Models } from './models';
import { sightOf } from './sight';
import type { State } from './state';
import { conductorsOf } from './test-point';
import { type Variant, variantsOf } from './variant';

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

/** Partial worlds kept at each step; those below this log ratio to the best are dropped. */
const BEAM = 300;
const CUT = 18;
/** Probability that the map leaves for roles it did not name, spread over all of them. */
const UNNAMED = 0.02;

interface Partial {
  readonly chosen: readonly number[];
  readonly levels: Float64Array;
  readonly prior: number;
  readonly score: number;
}

const logSum = (levels: Float64Array): number => {
  let most = Number.NEGATIVE_INFINITY;
  for (const v of levels) if (v > most) most = v;
  let sum = 0;
  for (const v of levels) sum += Math.exp(v - most);
  return most + Math.log(sum);
};

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

/** Log prior of each state for one conductor, from the map's role probabilities. */
function statePrior(map: PhaseMap, conductor: string, states: readonly State[]): Float64Array {
  const roles = map.assignments.find((a) => a.conductor === conductor)?.roles ?? [];
  const kinds = new Set(states.map((s) => `${s.system} ${s.role}`)).size;
  return Float64Array.from(states, (state) => {
    const named = roles.find((r) => r.system === state.system && r.role === state.role)?.probability ?? 0;
    return Math.log((Math.max(named, 0) + UNNAMED / kinds) * state.weight);
  });
}

interface Job {
  readonly map: PhaseMap;
  readonly meter: Meter;
  readonly conductors: readonly string[];
  readonly readings: readonly Reading[];
}

function beam(job: Job, variant: Variant, best: number): Partial[] {
  const { conductors, readings, meter } = job;
  const { states } = variant;
  const position = new Map(conductors.map((id, i) => [id, i]));
  const memo = readings.map(() => new Map<string, Float64Array>());
  const vector = (r: number, pick: readonly (State | null)[]): Float64Array => {
    const reading = readings[r];
    const kept = memo[r];
    if (!reading || !kept) return new Float64Array(LEVEL_LOG_PRIOR.length);
    const sight = sightOf(reading, pick, variant);
    const key = sightKey(sight) + (sight.kind === 'rotation' ? sight.order : '');
    const known = kept.get(key);
    if (known) return known;
    const made = logLikelihood(reading, sight, meter);
    kept.set(key, made);
    return made;
  };
  // A reading is taken into account when the last of its conductors is placed.
  const due: number[][] = conductors.map(() => []);
  const start = Float64Array.from(LEVEL_LOG_PRIOR);
  for (const [r, reading] of readings.entries()) {
    const ids = conductorsOf(reading);
    if (ids.length === 0) {
      const v = vector(r, [null, null, null]);
      for (let l = 0; l < start.length; l++) start[l] = (start[l] ?? 0) + (v[l] ?? 0);
    } else due[Math.max(...ids.map((id) => position.get(id) ?? 0))]?.push(r);
  }
  let front: Partial[] = [
    { chosen: [], levels: start, prior: variant.logPrior, score: variant.logPrior + logSum(start) },
  ];
  for (const [i, conductor] of conductors.entries()) {
    const prior = statePrior(job.map, conductor, states);
    const grown: Partial[] = [];
    let top = Number.NEGATIVE_INFINITY;
    for (const partial of front) {
      for (let s = 0; s < states.length; s++) {
        const chosen = [...partial.chosen, s];
        const levels = Float64Array.from(partial.levels);
        for (const r of due[i] ?? []) {
          const reading = readings[r];
          if (!reading) continue;
          const leads = [reading.from, reading.to, reading.third];
          const pick = leads.map((p) => {
            const at = p?.kind === 'conductor' ? chosen[position.get(p.conductor) ?? -1] : undefined;
            return at === undefined ? null : (states[at] ?? null);
          });
          const v = vector(r, pick);
          for (let l = 0; l < levels.length; l++) levels[l] = (levels[l] ?? 0) + (v[l] ?? 0);
        }
        const weight = partial.prior + (prior[s] ?? 0);
        const score = weight + logSum(levels);
        if (score > top) top = score;
        if (score > top - CUT) grown.push({ chosen, levels, prior: weight, score });
      }
    }
    // Scores only fall as conductors and readings are added (densities per volt stay below 1 almost everywhere),
    // so a variant far behind the best finished one is given up.
    if (top < best - 2 * CUT) return [];
    front = grown
      .filter((g) => g.score > top - CUT)
      .sort((a, b) => b.score - a.score)
      .slice(0, BEAM);
  }
  return front;
}

const bestLevel = (levels: Float64Array): number => levels.indexOf(Math.max(...levels));

function explainComponent(job: Job, variants: readonly Variant[]): World[] {
  const all: { variant: Variant; partial: Partial }[] = [];
  let best = Number.NEGATIVE_INFINITY;
  for (const variant of variants) {
    for (const partial of beam(job, variant, best)) {
      best = Math.max(best, partial.score);
      all.push({ variant, partial });
    }
  }
  const kept = all.filter((a) => a.partial.score > best - CUT).sort((a, b) => b.partial.score - a.partial.score);
  const sum = kept.reduce((s, a) => s + Math.exp(a.partial.score - best), 0);
  return kept.map(({ variant, partial }) => ({
    variant,
    states: new Map(
      job.conductors.flatMap((id, i) => {
        const state = variant.states[partial.chosen[i] ?? -1];
        return state ? [[id, state] as const] : [];
      }),
    ),
    probability: Math.exp(partial.score - best) / sum,
    level: bestLevel(partial.levels),
  }));
}

/**
 * The ways the measured conductors can be, given the map and the counted readings: for each group of conductors
 * joined by readings, possible worlds with probabilities. Exact up to the beam (300 partial worlds, dropping those
 * e^18 times less likely); checked against plain enumeration in the tests.
 */
export function infer(map: PhaseMap, readings: readonly Reading[], models: Models, meter: Meter): Component[] {
  const variants = variantsOf(map, models);
  return componentsOf(readings).map((group) => {
    const conductors = order(group.conductors, group.readings);
    return {
      conductors,
      readings: group.readings,
      worlds: explainComponent({ map, meter, conductors, readings: group.readings }, variants),
    };
  });
}
