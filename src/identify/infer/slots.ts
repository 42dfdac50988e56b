import type { Hypothesis } from './hypothesis';

/** Columns of a hypothesis: roles of the first main, of the second, grounding, foreign, roles of the auxiliary. */
export interface Slots {
  readonly main: readonly number[];
  readonly ground: number;
  readonly foreign: number;
  readonly auxiliary: number;
  readonly count: number;
}

export function slotsOf(h: Hypothesis): Slots {
  const main: number[] = [];
  let at = 0;
  for (const member of h.mains) {
    main.push(at);
    at += member.roles.length;
  }
  return { main, ground: at, foreign: at + 1, auxiliary: at + 2, count: at + 2 + (h.auxiliary?.roles.length ?? 0) };
}

/** A part of the picture whose weight, given a hypothesis, does not depend on the other parts. */
export interface Unit {
  /** Weight of all role assignments that use only the allowed parts. */
  weight(allowed: number): number;
  /** Adds, for each conductor and slot, the sum over `terms` of factor times the weight with that role. */
  addMarginals(terms: readonly Term[], out: Float64Array): void;
}

export interface Term {
  readonly allowed: number;
  readonly factor: number;
}
