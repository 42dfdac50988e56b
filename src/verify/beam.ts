import type { Reading } from '../flow';
import { bestLogLikelihood, LEVEL_LOG_PRIOR, logLikelihood } from './likelihood';
import type { Meter } from './meter';
import { type NumberedSight, type SightTable, sightTable } from './sight-table';
import { conductorsOf } from './test-point';
import type { Variant } from './variant';

/** Partial worlds kept at each step: 150 for a circuit or two, fewer in a full gutter, where the work is shared out. */
const beamFor = (conductors: number): number => Math.max(40, Math.min(150, Math.round(1200 / conductors)));
/** Worlds this much less likely than the best (natural log) are dropped: e^-12 is one in 160,000. */
export const CUT = 12;
/** The same for states of one conductor before its readings to other conductors are looked at, which may yet speak for it. */
const VIABLE = 16;

const L = LEVEL_LOG_PRIOR.length;

/** A reading made ready: log likelihoods of all its classes, level by level, and who its conductors are. */
interface Factor {
  readonly table: SightTable;
  readonly reading: Reading;
  /** By class: log likelihood of each supply level, made when first asked for. */
  readonly rows: (Float64Array | undefined)[];
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

/** One supply with everything the search needs. */
export interface Prepared {
  readonly variant: Variant;
  readonly factors: readonly Factor[];
  readonly start: Float64Array;
  /** By conductor: log prior and readings to fixed places, `[state * L + level]`. */
  readonly unary: readonly Float64Array[];
  readonly meter: Meter;
}

function factorOf(reading: Reading, variant: Variant, place: ReadonlyMap<string, number>): Factor {
  const table = sightTable(variant, reading);
  return { table, reading, rows: [], places: conductorsOf(reading).map((id) => place.get(id) ?? 0) };
}

function rowOf(factor: Factor, at: number, meter: Meter): Float64Array {
  const kind = factor.table.of[at] as number;
  const known = factor.rows[kind];
  if (known) return known;
  const { sight, id } = factor.table.classes[kind] as NumberedSight;
  const made = logLikelihood(factor.reading, sight, id, meter);
  factor.rows[kind] = made;
  return made;
}

/** The best any row can give, level by level; rows are laid out one after another. */
function bestOf(rows: Float64Array): Float64Array {
  const best = new Float64Array(L).fill(Number.NEGATIVE_INFINITY);
  for (let i = 0; i < rows.length; i++)
    if ((rows[i] as number) > (best[i % L] as number)) best[i % L] = rows[i] as number;
  return best;
}

const addTo = (to: Float64Array, more: Float64Array): void => {
  for (let l = 0; l < L; l++) to[l] = (to[l] as number) + (more[l] as number);
};

/**
 * Makes one supply ready, or gives it up (null) as soon as even the best it could explain stays below `floor`.
 * `priorOf` gives the log prior of each state of the variant for a conductor.
 */
export function prepare(
  variant: Variant,
  conductors: readonly string[],
  readings: readonly Reading[],
  priorOf: (conductor: string) => Float64Array,
  meter: Meter,
  floor: number,
): Prepared | null {
  const place = new Map(conductors.map((id, i) => [id, i]));
  const all = readings.map((r) => factorOf(r, variant, place));
  const start = Float64Array.from(LEVEL_LOG_PRIOR, (p) => p + variant.logPrior);
  // Starts with the most that any supply could make of each reading, then each is replaced by what this one can.
  const bound = start.slice();
  const hope = all.map((f) => bestLogLikelihood(f.reading, meter));
  for (const h of hope) for (let l = 0; l < L; l++) bound[l] = (bound[l] as number) + h;
  for (const [r, factor] of all.entries()) {
    if (factor.places.length > 0) continue;
    const row = rowOf(factor, 0, meter);
    addTo(start, row);
    for (let l = 0; l < L; l++) bound[l] = (bound[l] as number) + (row[l] as number) - (hope[r] as number);
  }
  const unary: Float64Array[] = [];
  for (const [p, conductor] of conductors.entries()) {
    const prior = priorOf(conductor);
    const rows = new Float64Array(prior.length * L);
    for (let i = 0; i < rows.length; i++) rows[i] = prior[Math.floor(i / L)] as number;
    for (const [r, factor] of all.entries()) {
      if (factor.places.length !== 1 || factor.places[0] !== p) continue;
      for (let i = 0; i < rows.length; i++)
        rows[i] = (rows[i] as number) + (rowOf(factor, Math.floor(i / L), meter)[i % L] as number);
      for (let l = 0; l < L; l++) bound[l] = (bound[l] as number) - (hope[r] as number);
    }
    addTo(bound, bestOf(rows));
    if (most(bound) < floor) return null;
    unary.push(rows);
  }
  return { variant, factors: all.filter((f) => f.places.length > 1), start, unary, meter };
}

interface Partial {
  readonly chosen: readonly number[];
  /** A conductor in it has a fault that holds it at an odd voltage; a second such fault is not considered. */
  readonly faulty: boolean;
  readonly levels: Float64Array;
  readonly score: number;
}

/** States of a conductor that its own prior and readings to fixed places leave within the cut. */
function viable(rows: Float64Array): number[] {
  const tops: number[] = [];
  for (let i = 0; i < rows.length; i += L) tops.push(most(rows.subarray(i, i + L)));
  const top = Math.max(...tops);
  return tops.flatMap((t, s) => (t > top - VIABLE ? [s] : []));
}

function grow(front: readonly Partial[], place: number, prepared: Prepared): Partial[] {
  const { meter } = prepared;
  const n = prepared.variant.states.length;
  const rows = prepared.unary[place] as Float64Array;
  const states = viable(rows);
  const due = prepared.factors.filter((f) => Math.max(...f.places) === place);
  const grown: Partial[] = [];
  const sum = new Float64Array(L);
  let top = Number.NEGATIVE_INFINITY;
  for (const partial of front) {
    // Offset into each table from the states already chosen, and the stride of the new one.
    const steps = due.map((factor) => {
      let offset = 0;
      let stride = 0;
      for (const [k, p] of factor.places.entries()) {
        if (p === place) stride += n ** k;
        else offset += (partial.chosen[p] as number) * n ** k;
      }
      return { factor, offset, stride };
    });
    for (const s of states) {
      const blurred = (prepared.variant.states[s]?.blur ?? 0) > 0;
      if (blurred && partial.faulty) continue;
      for (let l = 0; l < L; l++) sum[l] = (partial.levels[l] as number) + (rows[s * L + l] as number);
      for (const { factor, offset, stride } of steps) {
        const row = rowOf(factor, offset + s * stride, meter);
        for (let l = 0; l < L; l++) sum[l] = (sum[l] as number) + (row[l] as number);
      }
      const score = most(sum);
      if (score > top) top = score;
      if (score > top - CUT)
        grown.push({
          chosen: [...partial.chosen, s],
          faulty: partial.faulty || blurred,
          levels: sum.slice(),
          score,
        });
    }
  }
  return grown
    .filter((g) => g.score > top - CUT)
    .sort((a, b) => b.score - a.score)
    .slice(0, beamFor(prepared.unary.length));
}

/** The likeliest worlds of one supply. */
export function search(prepared: Prepared): Found[] {
  let front: Partial[] = [{ chosen: [], faulty: false, levels: prepared.start, score: 0 }];
  for (const place of prepared.unary.keys()) front = grow(front, place, prepared);
  return front;
}
