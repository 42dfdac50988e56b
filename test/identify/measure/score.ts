import { identify, roleMarginals } from '../../../src/identify';
import { COLOR_CANNOT_DECIDE, COLOR_CEILING } from '../../../src/identify/model/priors';
import { letterCeiling } from '../../../src/identify/model/site-habit';
import { TAG_CEILING } from '../../../src/identify/model/tag';
import { random } from '../random';
import { rolesColorAllows, rolesSiteAllows } from './decides';
import type { InventedSite, Scenario } from './sites';

/** One conductor's answer: probability of the named role, whether it is right, whether color decides. */
export interface Answer {
  readonly probability: number;
  readonly right: boolean;
  /** The probability is a ceiling: a rule kept it from going higher, whatever the model holds. */
  readonly atCeiling: boolean;
  readonly decided: boolean;
  /** The same for somebody who knows the systems and what they wear here. */
  readonly decidedAtSite: boolean;
  /** ... and that table gives its look two roles or more. */
  readonly openAtSite: boolean;
  /** Probabilities of all roles with whether each is the true one: for calibration of the whole distribution. */
  readonly covered: boolean;
  readonly setSize: number;
}

export interface Score {
  readonly conductors: number;
  readonly accuracy: number;
  readonly meanProbability: number;
  /** Expected calibration error over ten equal bins of the probability of the named role. */
  readonly ece: number;
  /** The same where a ceiling counts as what it is, "this or more": see `eceOfBounds`. */
  readonly eceOfBounds: number;
  /** The part of `ece` where the engine claims more than it holds; the rest is modesty. */
  readonly overclaimed: number;
  readonly sure: number;
  readonly sureAndWrong: number;
  readonly decidedShare: number;
  readonly decidedRight: number;
  readonly siteDecidedShare: number;
  readonly siteDecidedRight: number;
  /** Highest probability of a role where the table of the true systems gives the look several. */
  readonly highestSiteUndecided: number;
  /** Of those that color cannot decide: share not above 0.9. */
  readonly refusedRightly: number;
  readonly highestUndecided: number;
  /** The smallest set of roles that holds 95 % of the probability holds the true one. */
  readonly setCovers: number;
  readonly meanSetSize: number;
}

export function answers(site: InventedSite): Answer[] {
  const map = identify(site.conductors, site.knowledge);
  const allowed = rolesColorAllows(site.looks, site.knowledge.systems);
  const here = rolesSiteAllows(site.looks, site.truth);
  const ceilings = [COLOR_CEILING, COLOR_CANNOT_DECIDE, letterCeiling(site.knowledge, 0.5), TAG_CEILING];
  return map.assignments.map((a) => {
    const roles = roleMarginals(a);
    const truth = site.truth[a.conductor]!.role;
    let mass = 0;
    const set = [];
    for (const r of roles) {
      if (mass >= 0.95) break;
      set.push(r.role);
      mass += r.probability;
    }
    const probability = roles[0]?.probability ?? 0;
    return {
      probability,
      atCeiling: ceilings.some((c) => Math.abs(c - probability) < 1e-6),
      right: roles[0]?.role === truth,
      decided: (allowed.get(a.conductor)?.size ?? 0) === 1,
      decidedAtSite: here.get(a.conductor)?.size === 1,
      openAtSite: (here.get(a.conductor)?.size ?? 0) > 1,
      covered: set.includes(truth),
      setSize: set.length,
    };
  });
}

export function play(scenario: Scenario, sites: number, seed: number): Answer[] {
  const r = random(seed);
  return Array.from({ length: sites }, () => answers(scenario.make(r))).flat();
}

interface Bin {
  readonly n: number;
  readonly claimed: number;
  readonly held: number;
}

/** Weighted sums over ten equal bins of the probability of the named role. */
function binned(list: readonly Answer[], weight: (a: Answer) => number): readonly Bin[] {
  const bins = Array.from({ length: 10 }, () => ({ n: 0, claimed: 0, held: 0 }));
  for (const a of list) {
    const bin = bins[Math.min(9, Math.floor(10 * a.probability))]!;
    const w = weight(a);
    bin.n += w;
    bin.claimed += w * a.probability;
    bin.held += a.right ? w : 0;
  }
  return bins;
}

const gap = (bins: readonly Bin[], of: (b: Bin) => number): number =>
  bins.reduce((sum, b) => sum + of(b), 0) /
  Math.max(
    1e-12,
    bins.reduce((sum, b) => sum + b.n, 0),
  );

const one = (): number => 1;

/** Expected calibration error; `weight` lets the scenarios of a population count as often as they are met. */
export const ece = (list: readonly Answer[], weight: (a: Answer) => number = one): number =>
  gap(binned(list, weight), (b) => Math.abs(b.claimed - b.held));

/**
 * Expected calibration error where an answer at a ceiling says "this or more": such answers stand in bins of their own, one
 * for each ceiling, and are wrong only as far as fewer hold than the ceiling says. All others count as in `ece`.
 */
export function eceOfBounds(list: readonly Answer[], weight: (a: Answer) => number = one): number {
  const free = binned(
    list.filter((a) => !a.atCeiling),
    weight,
  );
  const bounds = new Map<string, Answer[]>();
  for (const a of list) {
    if (!a.atCeiling) continue;
    const key = a.probability.toFixed(4);
    bounds.set(key, [...(bounds.get(key) ?? []), a]);
  }
  let error = 0;
  let n = 0;
  for (const b of free) {
    error += Math.abs(b.claimed - b.held);
    n += b.n;
  }
  for (const held of bounds.values()) {
    const over = held.reduce((sum, a) => sum + weight(a) * (a.probability - (a.right ? 1 : 0)), 0);
    error += Math.max(0, over);
    n += held.reduce((sum, a) => sum + weight(a), 0);
  }
  return error / Math.max(1e-12, n);
}

/** The part of the calibration error where more is claimed than holds. */
export const overclaimed = (list: readonly Answer[], weight: (a: Answer) => number = one): number =>
  gap(binned(list, weight), (b) => Math.max(0, b.claimed - b.held));

const share = (list: readonly Answer[], test: (a: Answer) => boolean): number =>
  list.length === 0 ? Number.NaN : list.filter(test).length / list.length;
const mean = (list: readonly Answer[], of: (a: Answer) => number): number =>
  list.reduce((sum, a) => sum + of(a), 0) / Math.max(1, list.length);

export function score(list: readonly Answer[]): Score {
  const decided = list.filter((a) => a.decided);
  const undecided = list.filter((a) => !a.decided);
  return {
    conductors: list.length,
    accuracy: share(list, (a) => a.right),
    meanProbability: mean(list, (a) => a.probability),
    ece: ece(list),
    eceOfBounds: eceOfBounds(list),
    overclaimed: overclaimed(list),
    sure: share(list, (a) => a.probability > 0.9),
    sureAndWrong: share(list, (a) => a.probability > 0.9 && !a.right),
    decidedShare: share(list, (a) => a.decided),
    decidedRight: share(decided, (a) => a.right),
    siteDecidedShare: share(list, (a) => a.decidedAtSite),
    siteDecidedRight: share(
      list.filter((a) => a.decidedAtSite),
      (a) => a.right,
    ),
    highestSiteUndecided: Math.max(0, ...list.filter((a) => a.openAtSite).map((a) => a.probability)),
    refusedRightly: share(undecided, (a) => a.probability <= 0.9),
    highestUndecided: Math.max(0, ...undecided.map((a) => a.probability)),
    setCovers: share(list, (a) => a.covered),
    meanSetSize: mean(list, (a) => a.setSize),
  };
}
