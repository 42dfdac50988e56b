import type { Strictness } from '../model/priors';
import type { Beside } from './beside';
import type { Auxiliary, ExtraRatios, Member, Sole } from './members';

/** One joint guess at everything but the roles. */
export interface Hypothesis {
  /** None, one or two supply systems; three where the user named them. */
  readonly mains: readonly Member[];
  /** Share of each main in a picture of many circuits; sums to 1. */
  readonly mix: readonly number[];
  readonly auxiliary: Auxiliary | null;
  readonly extras: ExtraRatios;
  /** What `extras` and the auxiliary system make of each conductor: the extras of many circuits, and those beside a set. */
  readonly beside: { readonly many: Beside; readonly set: Beside };
  readonly structure: 'single set' | 'many';
  /**
   * Place among the `soles` of the only main: all loose circuit conductors have that role and look (a coil, a bundle, the
   * tails of one phase). -1: each has its own.
   */
  readonly sole: number;
  readonly strictness: Strictness;
  /** Prior probability of all of the above. */
  readonly prior: number;
}

/**
 * Which parts of a hypothesis may be used, as bits: 1, 2 and 4 the mains, 8 auxiliary. Weights are
 * cumulative over such sets, so that "every system of the hypothesis is seen" follows by inclusion and exclusion.
 */
export type Allowed = number;
export const AUXILIARY_BIT = 8;

/** Parts that must be seen: all of several systems, and the auxiliary one beside any. */
export function requiredParts(h: Hypothesis): Allowed {
  const mains = h.mains.length > 1 ? (1 << h.mains.length) - 1 : 0;
  return h.auxiliary && h.mains.length > 0 ? mains | AUXILIARY_BIT : mains;
}

export const allParts = (h: Hypothesis): Allowed => ((1 << h.mains.length) - 1) | (h.auxiliary ? AUXILIARY_BIT : 0);

const bits = (mask: number): number => (mask & 1) + ((mask >> 1) & 1) + ((mask >> 2) & 1) + ((mask >> 3) & 1);

/** Allowed sets with their signs: sum of sign * weight is the weight of "all required parts are seen". */
export function signedParts(h: Hypothesis): readonly { readonly allowed: Allowed; readonly sign: 1 | -1 }[] {
  const all = allParts(h);
  const required = requiredParts(h);
  const out: { allowed: Allowed; sign: 1 | -1 }[] = [];
  for (let off = required; ; off = (off - 1) & required) {
    out.push({ allowed: all & ~off, sign: bits(off) % 2 === 0 ? 1 : -1 });
    if (off === 0) break;
  }
  return out;
}

/** What a bundle is, in one of its mains; undefined where each conductor has its own role. */
export const soleOf = (h: Hypothesis, member: Member): Sole | undefined =>
  h.sole < 0 ? undefined : member.soles[h.sole];

/** Switch legs ride along, so that the circuits are lighting circuits. */
export const isSwitched = (h: Hypothesis): boolean => h.auxiliary?.roles.includes('switch leg') ?? false;
