import { SYSTEMS } from '../data/systems';
import { EXTRAS, EXTRAS_WITH_AUXILIARY, FURTHER_EXTRA, SHAPES } from '../model/priors';
import type { Roster } from './members';

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
 * switch legs ride along, so that most sets are one line and its grounded conductor. `cabled`: the set is one cable of
 * a box where they do.
 */
export function shapeOf(member: Roster, switched: boolean, cabled: boolean): Float64Array {
  const key = `${member.system}/${switched}/${cabled}`;
  const kept = CACHE.get(key);
  if (kept) return kept;
  const usual = usualShape(member);
  const lighting = switched ? lightingShape(member, usual) : usual;
  const made = switched && cabled ? cabledShape(member, lighting) : lighting;
  CACHE.set(key, made);
  return made;
}

function usualShape(member: Roster): Float64Array {
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

function lightingShape(member: Roster, usual: Float64Array): Float64Array {
  const lines = (1 << member.hot) - 1;
  const single = normalized(usual.map((p, mask) => (mask > 0 && count(mask & lines) <= 1 ? p : 0)));
  return usual.map((p, mask) => LIGHTING * single[mask]! + (1 - LIGHTING) * p);
}

/**
 * Of the cables in a box with switch legs, about half carry a supplied line; in the others the line has become the
 * switch leg or a pair of travelers beside the grounded conductor, or, in an old switch loop, beside nothing else
 * (NEC 404.2(C) asks for the grounded conductor at most switch places since 2011; from memory). Common practice; the
 * sizes are assumptions of ours.
 */
const SUPPLIED = 0.5;
const WITH_GROUNDED = 0.85;

function cabledShape(member: Roster, lighting: Float64Array): Float64Array {
  const grounded = member.roles.length > member.hot;
  const alone = grounded ? 1 << member.hot : 0;
  return lighting.map((p, mask) => {
    const share = mask === alone ? (grounded ? WITH_GROUNDED : 1) : mask === 0 ? 1 - WITH_GROUNDED : 0;
    return SUPPLIED * p + (1 - SUPPLIED) * share;
  });
}

function normalized(out: Float64Array): Float64Array {
  let sum = 0;
  for (let mask = 1; mask < out.length; mask++) sum += out[mask]!;
  const scaled = out.map((p) => (p / sum) * (1 - EMPTY_SET));
  scaled[0] = EMPTY_SET;
  return scaled;
}

/** Extras of one cable in a box with switch legs: its ground, a switch leg or two travelers (assumption of ours). */
const EXTRAS_OF_CABLE = [0.05, 0.43, 0.3, 0.19] as const;

/** Probability of k extras (grounding, foreign, auxiliary) beside one set; `cabled` as in `shapeOf`. */
export function extrasProbability(k: number, auxiliary: boolean, cabled: boolean): number {
  const table: readonly number[] = auxiliary ? (cabled ? EXTRAS_OF_CABLE : EXTRAS_WITH_AUXILIARY) : EXTRAS;
  let tail = 0;
  const last = table[table.length - 1]!;
  for (const p of table) tail += p;
  const sum = tail + (last * FURTHER_EXTRA) / (1 - FURTHER_EXTRA);
  const p = k < table.length ? table[k]! : last * FURTHER_EXTRA ** (k - table.length + 1);
  return p / sum;
}
