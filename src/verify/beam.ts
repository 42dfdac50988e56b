import type { Reading } from '../flow';
import { LEVEL_LOG_PRIOR, logLikelihood } from './likelihood';
import type { Meter } from './meter';
import { type SightTable, sightTable } from './sight-table';
import { conductorsOf } from './test-point';
import type { Variant } from './variant';

/** Partial worlds kept at each step. */
export const BEAM = 300;
/** Worlds this much less likely than the best (natural log) are dropped: e^-18 is one in 60 million. */
export const CUT = 18;

const L = LEVEL_LOG_PRIOR.length;

/** A reading made ready: log likelihoods of all its classes, level by level, and who its conductors are. */
interface Factor {
  readonly table: SightTable;
  /** `likelihood[class * L + level]` */
  readonly likelihood: Float64Array;
  /** Places of its conductors in the order of placing. */
  readonly places: readonly number[];
}

export interface Found {
  readonly chosen: readonly number[];
  /** Log weight by supply level, priors included. */
  readonly levels: Float64Array;
}

const most = (v: Float64Array): number => {
  let best = Number.NEGATIVE_INFINITY;
  for (const x of v) if (x > best) best = x;
  return best;
};

export const logSum = (levels: Float64Array): number => {
  const top = most(levels);
  let sum = 0;
  for (const v of levels) sum += Math.exp(v - top);
  return top + Math.log(sum);
};

/** One supply with everything the search needs; `bound` is no less than the score of any world in it. */
export interface Prepared {
  readonly variant: Variant;
  readonly factors: readonly Factor[];
  readonly start: Float64Array;
  /** By conductor: log prior and readings to fixed places, `[state * L + level]`. */
  readonly unary: readonly Float64Array[];
  readonly bound: number;
}

function factorOf(reading: Reading, variant: Variant, meter: Meter, place: ReadonlyMap<string, number>): Factor {
  const table = sightTable(variant, reading);
  const likelihood = new Float64Array(table.classes.length * L);
  for (const [k, sight] of table.classes.entries())
    likelihood.set(logLikelihood(reading, sight, table.keys[k] ?? '', meter), k * L);
  return { table, likelihood, places: conductorsOf(reading).map((id) => place.get(id) ?? 0) };
}

/** Adds, level by level, the best any row of `rows` can give. */
function addBest(to: Float64Array, rows: Float64Array): void {
  for (let l = 0; l < L; l++) {
    let best = Number.NEGATIVE_INFINITY;
    for (let i = l; i < rows.length; i += L) best = Math.max(best, rows[i] as number);
    to[l] = (to[l] as number) + best;
  }
}

/** `priors` by conductor: log prior of each state of the variant. */
export function prepare(
  variant: Variant,
  conductors: readonly string[],
  readings: readonly Reading[],
  priors: readonly Float64Array[],
  meter: Meter,
): Prepared {
  const place = new Map(conductors.map((id, i) => [id, i]));
  const all = readings.map((r) => factorOf(r, variant, meter, place));
  const start = Float64Array.from(LEVEL_LOG_PRIOR, (p) => p + variant.logPrior);
  const unary = priors.map((prior) => {
    const rows = new Float64Array(prior.length * L);
    for (let i = 0; i < rows.length; i++) rows[i] = prior[Math.floor(i / L)] as number;
    return rows;
  });
  for (const { table, likelihood, places } of all) {
    if (places.length === 0) for (let l = 0; l < L; l++) start[l] = (start[l] as number) + (likelihood[l] as number);
    const own = places.length === 1 ? unary[places[0] as number] : undefined;
    if (!own) continue;
    for (let i = 0; i < own.length; i++) {
      const row = table.of[Math.floor(i / L)] as number;
      own[i] = (own[i] as number) + (likelihood[row * L + (i % L)] as number);
    }
  }
  const factors = all.filter((f) => f.places.length > 1);
  const bound = Float64Array.from(start);
  for (const rows of unary) addBest(bound, rows);
  for (const { likelihood } of factors) addBest(bound, likelihood);
  return { variant, factors, start, unary, bound: most(bound) };
}

interface Partial {
  readonly chosen: readonly number[];
  readonly levels: Float64Array;
  readonly score: number;
}

/** States of a conductor that its own prior and readings to fixed places leave within the cut. */
function viable(rows: Float64Array): number[] {
  const tops: number[] = [];
  for (let i = 0; i < rows.length; i += L) tops.push(most(rows.subarray(i, i + L)));
  const top = Math.max(...tops);
  return tops.flatMap((t, s) => (t > top - CUT ? [s] : []));
}

function grow(front: readonly Partial[], place: number, prepared: Prepared): Partial[] {
  const n = prepared.variant.states.length;
  const rows = prepared.unary[place] as Float64Array;
  const states = viable(rows);
  const due = prepared.factors.filter((f) => Math.max(...f.places) === place);
  const grown: Partial[] = [];
  let top = Number.NEGATIVE_INFINITY;
  for (const partial of front) {
    // Offset into each table from the states already chosen, and the stride of the new one.
    const steps = due.map(({ places, table, likelihood }) => {
      let offset = 0;
      let stride = 0;
      for (const [k, p] of places.entries()) {
        if (p === place) stride += n ** k;
        else offset += (partial.chosen[p] as number) * n ** k;
      }
      return { of: table.of, likelihood, offset, stride };
    });
    for (const s of states) {
      const levels = new Float64Array(L);
      let score = Number.NEGATIVE_INFINITY;
      for (let l = 0; l < L; l++) {
        let sum = (partial.levels[l] as number) + (rows[s * L + l] as number);
        for (const { of, likelihood, offset, stride } of steps)
          sum += likelihood[(of[offset + s * stride] as number) * L + l] as number;
        levels[l] = sum;
        if (sum > score) score = sum;
      }
      if (score > top) top = score;
      if (score > top - CUT) grown.push({ chosen: [...partial.chosen, s], levels, score });
    }
  }
  return grown
    .filter((g) => g.score > top - CUT)
    .sort((a, b) => b.score - a.score)
    .slice(0, BEAM);
}

/** The likeliest worlds of one supply. */
export function search(prepared: Prepared): Found[] {
  let front: Partial[] = [{ chosen: [], levels: prepared.start, score: 0 }];
  for (const place of prepared.unary.keys()) front = grow(front, place, prepared);
  return front;
}
