import { SYSTEMS } from '../data/systems';
import { EXTRAS, EXTRAS_WITH_AUXILIARY, FURTHER_EXTRA, SHAPES } from '../model/priors';
import type { Member } from './members';

/** Probability that one set of a system shows none of its circuit conductors (only grounding, or nothing). */
export const EMPTY_SET = 0.08;
/** A third isolated conductor exists in three-phase isolated systems only, which are rare. */
const THIRD_ISOLATED = 0.3;

const count = (mask: number): number => {
  let n = 0;
  for (let m = mask; m; m &= m - 1) n++;
  return n;
};

const CACHE = new Map<string, Float64Array>();

/** Probability of each subset of a system's circuit roles in one set; index is the bit mask of roles. */
export function shapeOf(member: Member): Float64Array {
  const cached = CACHE.get(member.system);
  if (cached) return cached;
  const { hot, roles } = member;
  const grounded = roles.length > hot;
  const row = SHAPES[hot];
  const out = new Float64Array(1 << roles.length);
  for (let mask = 1; mask < out.length; mask++) {
    const lines = count(mask & ((1 << hot) - 1));
    const neutral = grounded && (mask & (1 << hot)) !== 0;
    let p = (neutral ? row?.with[lines] : row?.without[lines]) ?? 0;
    if (SYSTEMS[member.system]?.kind === 'isolated' && mask & 4) p *= THIRD_ISOLATED;
    out[mask] = p;
  }
  // Each entry is one subset; the table speaks of numbers, so alike subsets share.
  const alike = new Map<string, number>();
  const key = (mask: number) => `${count(mask & ((1 << hot) - 1))}/${mask >> hot}`;
  for (let mask = 1; mask < out.length; mask++) alike.set(key(mask), (alike.get(key(mask)) ?? 0) + 1);
  let sum = 0;
  for (let mask = 1; mask < out.length; mask++) {
    out[mask] = out[mask]! / alike.get(key(mask))!;
    sum += out[mask]!;
  }
  for (let mask = 1; mask < out.length; mask++) out[mask] = (out[mask]! / sum) * (1 - EMPTY_SET);
  out[0] = EMPTY_SET;
  CACHE.set(member.system, out);
  return out;
}

/** Probability of k extras (grounding, foreign, auxiliary) beside one set. */
export function extrasProbability(k: number, auxiliary: boolean): number {
  const table: readonly number[] = auxiliary ? EXTRAS_WITH_AUXILIARY : EXTRAS;
  let tail = 0;
  const last = table[table.length - 1]!;
  for (const p of table) tail += p;
  const sum = tail + (last * FURTHER_EXTRA) / (1 - FURTHER_EXTRA);
  const p = k < table.length ? table[k]! : last * FURTHER_EXTRA ** (k - table.length + 1);
  return p / sum;
}
