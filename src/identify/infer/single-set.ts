import { NOT_ON_A_BREAKER } from '../model/priors';
import { zeros } from './arena';
import { AUXILIARY_BIT, type Hypothesis, isSwitched } from './hypothesis';
import { GROUNDED } from './members';
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
  cabled = false,
): Unit {
  let built: Lattice | null = null;
  const lattice = (): Lattice => {
    built ??= makeLattice(h, conductors, units, mains, cabled);
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
    addMarginals(terms, out) {
      for (const auxiliary of [false, true]) {
        const mine = terms.filter((t) => usesAuxiliary(t.allowed) === auxiliary && t.factor !== 0);
        if (mine.length > 0) addSetMarginals(lattice(), forwardOf(auxiliary), mine, auxiliary, out);
      }
    },
  };
}

const BY_COUNT = new Float64Array(32);

/**
 * An upper bound of the weight with all parts allowed, cheap: dropping "each role at most once" only adds
 * assignments, and the greatest final factor for a number of roles taken bounds all end states with that number.
 */
export function singleSetBound(
  h: Hypothesis,
  conductors: readonly number[],
  mains: readonly number[],
  cabled = false,
): number {
  const { top } = finalOf(h, mains, conductors.length, cabled);
  const most = top.length - 1;
  // BY_COUNT[t]: sum over all ways to give t of the conductors seen so far any circuit role.
  BY_COUNT.fill(0, 0, most + 1);
  BY_COUNT[0] = 1;
  const extras = h.beside.set.joined;
  for (const i of conductors) {
    const extra = extras[i]!;
    let circuit = 0;
    for (const m of mains) circuit += h.mains[m]!.total[i]!;
    for (let t = most; t > 0; t--) BY_COUNT[t] = BY_COUNT[t]! * extra + BY_COUNT[t - 1]! * circuit;
    BY_COUNT[0] = BY_COUNT[0]! * extra;
  }
  let sum = 0;
  for (let t = 0; t <= most; t++) sum += top[t]! * BY_COUNT[t]!;
  return sum;
}

interface Lattice {
  readonly conductors: readonly number[];
  readonly states: number;
  /** By state: shapes, number of extras. */
  readonly final: Float64Array;
  /** By state: mains that it uses, as bits. */
  readonly needs: Uint8Array;
  /** By conductor k and role bit: weight at k * bits + b. */
  readonly circuit: Float64Array;
  /** By conductor k and slot: weight of the extras at k * slots.count + s. */
  readonly extra: Float64Array;
  readonly slotOfBit: readonly number[];
  readonly slots: Slots;
}

function makeLattice(
  h: Hypothesis,
  conductors: readonly number[],
  units: Units,
  mains: readonly number[],
  cabled: boolean,
): Lattice {
  const slots = slotsOf(h);
  const slotOfBit: number[] = [];
  for (const m of mains) h.mains[m]!.roles.forEach((_, r) => void slotOfBit.push(slots.main[m]! + r));
  const bits = slotOfBit.length;
  const circuit = zeros(conductors.length * bits);
  const extra = zeros(conductors.length * slots.count);
  conductors.forEach((i, k) => {
    const onPole = units.onPole[i]!;
    let at = k * bits;
    for (const m of mains) {
      const { roles, ratio } = h.mains[m]!;
      for (let r = 0; r < roles.length; r++) {
        const odd = onPole && roles[r] === GROUNDED ? NOT_ON_A_BREAKER : 1;
        circuit[at++] = odd * ratio[i * roles.length + r]!;
      }
    }
    extraTerms(h, i, extraMixture(h, onPole), extra, k * slots.count, slots);
  });
  const final = finalOf(h, mains, conductors.length, cabled);
  return { conductors, states: 1 << bits, circuit, extra, slotOfBit, slots, ...final };
}

interface Final {
  readonly final: Float64Array;
  readonly needs: Uint8Array;
  /** Greatest final factor by number of roles taken. */
  readonly top: Float64Array;
}
const FINALS = new Map<number, Final>();

/** Factors of the end states; they depend on the systems and the number of conductors only, so they are kept. */
function finalOf(h: Hypothesis, mains: readonly number[], n: number, cabled: boolean): Final {
  let key = (2 * n + (cabled ? 1 : 0)) * 3 + (h.auxiliary ? 1 : 0) + (isSwitched(h) ? 1 : 0);
  for (const m of mains) key = key * 256 + 4 * h.mains[m]!.number + m + 1;
  const kept = FINALS.get(key);
  if (kept) return kept;
  let bits = 0;
  for (const m of mains) bits += h.mains[m]!.roles.length;
  const final = new Float64Array(1 << bits);
  const needs = new Uint8Array(1 << bits);
  const top = new Float64Array(bits + 1);
  const isAuxiliary = h.auxiliary !== null;
  const cabledBox = cabled && isSwitched(h);
  for (let mask = 0; mask < final.length; mask++) {
    let p = 1;
    let taken = 0;
    let at = 0;
    for (const m of mains) {
      const member = h.mains[m]!;
      const part = (mask >> at) & ((1 << member.roles.length) - 1);
      at += member.roles.length;
      p *= shapeOf(member, isSwitched(h), cabled)[part]!;
      if (part) needs[mask] = needs[mask]! | (1 << m);
      for (let b = part; b; b &= b - 1) taken++;
    }
    const extras = n - taken;
    if (extras >= 0) final[mask] = p * extrasProbability(extras, isAuxiliary, cabledBox) * orderShare(n, extras);
    top[taken] = Math.max(top[taken]!, final[mask]!);
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

function extraSum(l: Lattice, k: number, auxiliary: boolean): number {
  const { slots, extra } = l;
  const at = k * slots.count;
  let sum = extra[at + slots.ground]! + extra[at + slots.foreign]!;
  if (auxiliary) for (let s = slots.auxiliary; s < slots.count; s++) sum += extra[at + s]!;
  return sum;
}

/** Weights of the states after k conductors, one row after the other. */
function runForward(l: Lattice, auxiliary: boolean): Float64Array {
  const bits = l.slotOfBit.length;
  const { states } = l;
  const out = zeros((l.conductors.length + 1) * states);
  out[0] = 1;
  for (let k = 0; k < l.conductors.length; k++) {
    const before = k * states;
    const after = before + states;
    const e = extraSum(l, k, auxiliary);
    const w = k * bits;
    for (let mask = 0; mask < states; mask++) {
      const f = out[before + mask]!;
      if (f === 0) continue;
      out[after + mask] = out[after + mask]! + f * e;
      for (let b = 0; b < bits; b++) {
        if (!(mask & (1 << b)))
          out[after + (mask | (1 << b))] = out[after + (mask | (1 << b))]! + f * l.circuit[w + b]!;
      }
    }
  }
  return out;
}

function addSetMarginals(
  l: Lattice,
  forward: Float64Array,
  terms: readonly Term[],
  auxiliary: boolean,
  out: Float64Array,
): void {
  const bits = l.slotOfBit.length;
  const { states } = l;
  let after = zeros(states);
  let before = zeros(states);
  for (const { allowed, factor } of terms) {
    for (let mask = 0; mask < states; mask++) {
      if ((l.needs[mask]! & allowed) === l.needs[mask]!) after[mask] = after[mask]! + factor * l.final[mask]!;
    }
  }
  for (let k = l.conductors.length - 1; k >= 0; k--) {
    const at = k * states;
    const w = k * bits;
    const row = k * l.slots.count;
    const e = extraSum(l, k, auxiliary);
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
        const there = after[mask | (1 << b)]! * l.circuit[w + b]!;
        sum += there;
        const slot = base + l.slotOfBit[b]!;
        out[slot] = out[slot]! + f * there;
      }
      before[mask] = sum;
    }
    const end = auxiliary ? l.slots.count : l.slots.auxiliary;
    for (let s = l.slots.ground; s < end; s++) out[base + s] = out[base + s]! + asExtra * l.extra[row + s]!;
    [after, before] = [before, after];
  }
}
