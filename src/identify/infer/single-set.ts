import { NOT_ON_A_BREAKER } from '../model/priors';
import { AUXILIARY_BIT, type Hypothesis } from './hypothesis';
import { auxiliarySum, GROUNDED } from './members';
import { extraMixture, extraTerms } from './role-prior';
import { extrasProbability, shapeOf } from './shapes';
import { type Slots, slotsOf, type Term, type Unit } from './slots';
import type { Units } from './units';

/**
 * One set per system: every circuit role is taken at most once; the rest are extras. Exact: the sum over all
 * assignments runs over (conductor, roles taken so far), 2^roles states. `mains` picks which of the hypothesis's
 * systems are in play (a block has one).
 *
 * Weight = sum over assignments of shape(roles taken) * P(number of extras) * (extras)! / n! * likelihood ratios.
 */
export function singleSetUnit(
  h: Hypothesis,
  conductors: readonly number[],
  units: Units,
  mains: readonly number[],
): Unit {
  let built: Lattice | null = null;
  const lattice = (): Lattice => {
    built ??= makeLattice(h, conductors, units, mains, slotsOf(h));
    return built;
  };
  const forward = new Map<boolean, Float64Array>();
  const forwardOf = (auxiliary: boolean): Float64Array => {
    const kept = forward.get(auxiliary);
    if (kept) return kept;
    const made = runForward(lattice(), auxiliary);
    forward.set(auxiliary, made);
    return made;
  };
  const usesAuxiliary = (allowed: number): boolean => h.auxiliary !== null && (allowed & AUXILIARY_BIT) !== 0;
  return {
    weight(allowed) {
      const forwards = forwardOf(usesAuxiliary(allowed));
      const { states, needs, final } = lattice();
      const last = conductors.length * states;
      let sum = 0;
      for (let mask = 0; mask < states; mask++) {
        if ((needs[mask]! & allowed) === needs[mask]!) sum += final[mask]! * forwards[last + mask]!;
      }
      return sum;
    },
    bound(allowed) {
      // Dropping "each role at most once" only adds assignments; the greatest final factor bounds all of them.
      let product = finalOf(h, mains, conductors.length).top;
      for (const i of conductors) {
        const share = extraMixture(h, units.onPole[i]!);
        let sum = share.ground * h.extras.ground[i]! + share.foreign * h.extras.foreign[i]!;
        if (h.auxiliary && usesAuxiliary(allowed)) sum += share.auxiliary * auxiliarySum(h.auxiliary, i);
        for (const m of mains) sum += h.mains[m]!.total[i]!;
        product *= sum;
      }
      return product;
    },
    addMarginals(terms, out) {
      for (const auxiliary of [false, true]) {
        const mine = terms.filter((t) => usesAuxiliary(t.allowed) === auxiliary && t.factor !== 0);
        if (mine.length > 0) addSetMarginals(lattice(), forwardOf(auxiliary), mine, auxiliary, out);
      }
    },
  };
}

interface Lattice {
  readonly conductors: readonly number[];
  readonly states: number;
  /** By state: shapes, number of extras. */
  readonly final: Float64Array;
  /** By state: mains that it uses, as bits. */
  readonly needs: Uint8Array;
  /** By conductor k and role bit: weight. */
  readonly circuit: readonly Float64Array[];
  /** By conductor k: weights by slot of the extras. */
  readonly extra: readonly Float64Array[];
  readonly slotOfBit: readonly number[];
  readonly slots: Slots;
}

function makeLattice(
  h: Hypothesis,
  conductors: readonly number[],
  units: Units,
  mains: readonly number[],
  slots: Slots,
): Lattice {
  const slotOfBit: number[] = [];
  for (const m of mains) h.mains[m]!.roles.forEach((_, r) => void slotOfBit.push(slots.main[m]! + r));
  const states = 1 << slotOfBit.length;
  const circuit = conductors.map((i) => {
    const row: number[] = [];
    for (const m of mains) {
      const { roles, ratio } = h.mains[m]!;
      roles.forEach((role, r) => {
        const odd = role === GROUNDED && units.onPole[i] ? NOT_ON_A_BREAKER : 1;
        row.push(odd * ratio[i * roles.length + r]!);
      });
    }
    return Float64Array.from(row);
  });
  const extra = conductors.map((i) => {
    const row = new Float64Array(slots.count);
    extraTerms(h, i, extraMixture(h, units.onPole[i]!), row, slots);
    return row;
  });
  const { final, needs } = finalOf(h, mains, conductors.length);
  return { conductors, states, final, needs, circuit, extra, slotOfBit, slots };
}

interface Final {
  readonly final: Float64Array;
  readonly needs: Uint8Array;
  readonly top: number;
}
const FINALS = new Map<string, Final>();

/** Factors of the end states; they depend on the systems and the number of conductors only, so they are kept. */
function finalOf(h: Hypothesis, mains: readonly number[], n: number): Final {
  let key = h.auxiliary ? `${n}+` : `${n}`;
  for (const m of mains) key += `${m}${h.mains[m]!.system}`;
  const kept = FINALS.get(key);
  if (kept) return kept;
  let bits = 0;
  for (const m of mains) bits += h.mains[m]!.roles.length;
  const final = new Float64Array(1 << bits);
  const needs = new Uint8Array(1 << bits);
  let top = 0;
  for (let mask = 0; mask < final.length; mask++) {
    let p = 1;
    let taken = 0;
    let at = 0;
    for (const m of mains) {
      const member = h.mains[m]!;
      const part = (mask >> at) & ((1 << member.roles.length) - 1);
      at += member.roles.length;
      p *= shapeOf(member)[part]!;
      if (part) needs[mask] = needs[mask]! | (1 << m);
      for (let b = part; b; b &= b - 1) taken++;
    }
    if (taken <= n) final[mask] = p * extrasProbability(n - taken, h.auxiliary !== null) * orderShare(n, n - taken);
    top = Math.max(top, final[mask]!);
  }
  const made = { final, needs, top };
  FINALS.set(key, made);
  return made;
}

/** (extras)! / n!: probability of one way to deal the roles out. */
function orderShare(n: number, extras: number): number {
  let p = 1;
  for (let k = extras + 1; k <= n; k++) p /= k;
  return p;
}

function extraSum(row: Float64Array, slots: Slots, auxiliary: boolean): number {
  let sum = row[slots.ground]! + row[slots.foreign]!;
  if (auxiliary) for (let s = slots.auxiliary; s < slots.count; s++) sum += row[s]!;
  return sum;
}

/** Weights of the states after k conductors, one row after the other. */
function runForward(l: Lattice, auxiliary: boolean): Float64Array {
  const bits = l.slotOfBit.length;
  const { states } = l;
  const out = new Float64Array((l.conductors.length + 1) * states);
  out[0] = 1;
  for (let k = 0; k < l.conductors.length; k++) {
    const before = k * states;
    const after = before + states;
    const e = extraSum(l.extra[k]!, l.slots, auxiliary);
    const w = l.circuit[k]!;
    for (let mask = 0; mask < states; mask++) {
      const f = out[before + mask]!;
      if (f === 0) continue;
      out[after + mask] = out[after + mask]! + f * e;
      for (let b = 0; b < bits; b++) {
        if (!(mask & (1 << b))) out[after + (mask | (1 << b))] = out[after + (mask | (1 << b))]! + f * w[b]!;
      }
    }
  }
  return out;
}

const BUFFERS: [Float64Array, Float64Array] = [new Float64Array(0), new Float64Array(0)];

function addSetMarginals(
  l: Lattice,
  forward: Float64Array,
  terms: readonly Term[],
  auxiliary: boolean,
  out: Float64Array,
): void {
  const bits = l.slotOfBit.length;
  const { states } = l;
  if (BUFFERS[0].length < states) {
    BUFFERS[0] = new Float64Array(states);
    BUFFERS[1] = new Float64Array(states);
  }
  let [after, before] = BUFFERS;
  after.fill(0);
  for (const { allowed, factor } of terms) {
    for (let mask = 0; mask < states; mask++) {
      if ((l.needs[mask]! & allowed) === l.needs[mask]!) after[mask] = after[mask]! + factor * l.final[mask]!;
    }
  }
  for (let k = l.conductors.length - 1; k >= 0; k--) {
    const at = k * states;
    const w = l.circuit[k]!;
    const row = l.extra[k]!;
    const e = extraSum(row, l.slots, auxiliary);
    const base = l.conductors[k]! * l.slots.count;
    let asExtra = 0;
    for (let mask = 0; mask < states; mask++) {
      const f = forward[at + mask]!;
      // States that cannot be reached with k conductors have no weight before either.
      if (f === 0) continue;
      let sum = e * after[mask]!;
      asExtra += f * after[mask]!;
      for (let b = 0; b < bits; b++) {
        if (mask & (1 << b)) continue;
        const there = after[mask | (1 << b)]! * w[b]!;
        sum += there;
        const slot = base + l.slotOfBit[b]!;
        out[slot] = out[slot]! + f * there;
      }
      before[mask] = sum;
    }
    const end = auxiliary ? l.slots.count : l.slots.auxiliary;
    for (let s = l.slots.ground; s < end; s++) out[base + s] = out[base + s]! + asExtra * row[s]!;
    [after, before] = [before, after];
  }
}
