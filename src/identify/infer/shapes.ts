import { SYSTEMS } from '../data/systems';
import { EXTRAS, EXTRAS_WITH_AUXILIARY, FURTHER_EXTRA, SHAPES } from '../model/priors';
import type { Member } from './members';

/** Probability that one set of a system shows none of its circuit conductors (only grounding, or nothing). */
export const EMPTY_SET = 0.08;
/** A third isolated conductor exists in three-phase isolated systems only, which are rare. */
const THIRD_ISOLATED = 0.3;

/** Share of lighting boxes with one line only, among those with switch legs (assumption of ours). */
const LIGHTING = 0.8;

const count = (mask: number): number => {
  let n = 0;
  for (let m = mask; m; m &= m - 1) n++;
  return n;
};

const CACHE = new Map<string, Float64Array>();

/**
 * Probability of each subset of a system's circuit roles in one set; index is the bit mask of roles. `switched`:
 * switch legs ride along, so that most sets are one line and its grounded conductor.
 */
export function shapeOf(member: Member, switched: boolean): Float64Array {
  const key = `${member.system}/${switched}`;
  const kept = CACHE.get(key);
  if (kept) return kept;
  const usual = usualShape(member);
  const made = switched ? lightingShape(member, usual) : usual;
  CACHE.set(key, made);
  return made;
}

function usualShape(member: Member): Float64Array {
  const { hot, roles } = member;
  const grounded = roles.length > hot;
  const row = SHAPES[hot];
  const out = new Float64Array(1 << roles.length);
  // The table speaks of numbers, each entry here is one subset: alike subsets share.
  const alike = new Map<string, number>();
  const key = (mask: number) => `${count(mask & ((1 << hot) - 1))}/${mask >> hot}`;
  for (let mask = 1; mask < out.length; mask++) alike.set(key(mask), (alike.get(key(mask)) ?? 0) + 1);
  for (let mask = 1; mask < out.length; mask++) {
    const lines = count(mask & ((1 << hot) - 1));
    const neutral = grounded && (mask & (1 << hot)) !== 0;
    let p = (neutral ? row?.with[lines] : row?.without[lines]) ?? 0;
    if (SYSTEMS[member.system]?.kind === 'isolated' && mask & 4) p *= THIRD_ISOLATED;
    out[mask] = p / alike.get(key(mask))!;
  }
  return normalized(out);
}

function lightingShape(member: Member, usual: Float64Array): Float64Array {
  const lines = (1 << member.hot) - 1;
  const single = normalized(usual.map((p, mask) => (mask > 0 && count(mask & lines) <= 1 ? p : 0)));
  return usual.map((p, mask) => LIGHTING * single[mask]! + (1 - LIGHTING) * p);
}

function normalized(out: Float64Array): Float64Array {
  let sum = 0;
  for (let mask = 1; mask < out.length; mask++) sum += out[mask]!;
  const scaled = out.map((p) => (p / sum) * (1 - EMPTY_SET));
  scaled[0] = EMPTY_SET;
  return scaled;
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
