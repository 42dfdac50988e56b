import type { SystemId } from '../../flow';
import type { Scheme } from '../convention';

/**
 * What is believed before the photo is looked at. No survey of how often these arrangements are met was found, so
 * every number in this file is an assumption of ours (common practice, no source), chosen so that color alone stays
 * below 0.97 and checked for calibration on invented sites by `npm run measure:identify`.
 */

/** Relative frequency of supply systems among those of one jurisdiction. Others count as `OTHER_SYSTEM`. */
export const SYSTEM_WEIGHT: Readonly<Record<SystemId, number>> = {
  'us-120-240-1ph': 0.3,
  'us-208y120': 0.3,
  'us-480y277': 0.22,
  'us-240-120-high-leg': 0.05,
  'us-240-delta': 0.015,
  'us-480-delta': 0.02,
  'us-240-corner': 0.006,
  'us-480-corner': 0.006,
  'us-isolated-power': 0.03,
  'us-dc': 0.025,
  'us-pv-dc': 0.025,
  'uk-dc': 0.03,
  'uk-dc-pre-2022': 0.03,
  'iec-dc': 0.03,
  'jp-dc': 0.03,
  'ca-isolated': 0.03,
  'ca-240-120-high-leg': 0.05,
};
export const OTHER_SYSTEM = 0.3;

/** Probability that two systems share the picture when the user named none. */
export const TWO_SYSTEMS = 0.22;
/** Pairs met more often than their parts suggest: a 480Y/277 service with a transformer to 208Y/120. */
export const PAIR_AFFINITY: readonly (readonly [SystemId, SystemId, number])[] = [
  ['us-208y120', 'us-480y277', 5],
  ['us-120-240-1ph', 'us-208y120', 0.3],
  ['us-240-delta', 'us-480-delta', 2],
];
/** DC beside AC in one enclosure is rare and mostly forbidden: how much less such a pair counts. */
export const DC_BESIDE_AC = 0.1;
/** When the user names two systems: both are there, or only one of them reached this picture. */
export const BOTH_OF_TWO_NAMED = 0.75;
/** When the user names three or more: how many of them reached this picture. */
export const OF_THREE_NAMED = { three: 0.5, two: 0.35 } as const;
/** How much more a system counts that the site legend speaks of. */
export const LEGEND_BOOST = 6;

/** Probability that a kind of auxiliary conductor rides along. */
export const AUXILIARY: Readonly<Record<SystemId, number>> = {
  'us-switch-legs': 0.12,
  'ca-switch-legs': 0.12,
  'us-control': 0.04,
  // Receptacles of computer rooms, hospitals and old offices.
  'us-isolated-ground': 0.015,
  'iec-machine': 0.01,
};
/** Switch legs come with lighting: how often beside each supply, where that differs from `AUXILIARY`. */
export const SWITCHED: Readonly<Record<SystemId, number>> = {
  'us-120-240-1ph': 0.3,
  'us-480y277': 0.06,
  'us-240-120-high-leg': 0.03,
  'us-240-delta': 0.02,
  'us-480-delta': 0.02,
  'us-240-corner': 0.02,
  'us-480-corner': 0.02,
  'us-isolated-power': 0.02,
  'us-dc': 0.01,
  'us-pv-dc': 0.01,
  'ca-120-240-1ph': 0.3,
};
/**
 * The same in a box where the user told several cables of a house supply apart: most such boxes serve a light. An
 * assumption of ours.
 */
export const SWITCHED_BOX = 0.65;
/** Gutters that hold two supplies hold switch legs and control less often than boxes do. */
export const AUXILIARY_BESIDE_TWO = 0.2;
/** An auxiliary system that the user named. */
export const AUXILIARY_NAMED = 0.9;

/** Relative frequency of schemes within a system; normalized over those the system has. */
export const SCHEME_WEIGHT: Readonly<Record<Scheme, number>> = {
  habit: 1,
  'cable work': 0.5,
  'violet for B': 0.15,
  // The 120/240 V part of a high-leg service is black and red in most hands; that C is blue is the three-phase habit.
  'red for C': 0.6,
  'red high leg': 0.03,
  'without stripes': 0.12,
  'no order': 0.5,
  'local A red': 0.02,
};
/** Share of belief given to the site legend where one exists. */
export const LEGEND_TRUST = 0.97;

/**
 * How strictly a site follows the habit. `loose`: colors tell the system, number tags tell the phase. `alike`: all lines
 * are black, and tags or tape tell them apart.
 */
export const STRICTNESSES = ['strict', 'loose', 'alike', 'careless'] as const;
export type Strictness = (typeof STRICTNESSES)[number];

/** One circuit or feeder per system in the picture, or many circuits. */
export const SINGLE_SET = 0.6;
/** The same where the work is in cable: boxes join several cables. */
export const SINGLE_SET_IN_CABLE = 0.3;
/**
 * Largest number of ungrouped conductors for which one set per system is considered: two systems have at most eight
 * circuit roles, so beyond this at least nine would have to be extras. The gap is tested.
 */
export const SINGLE_SET_LIMIT = 16;
/**
 * Pictures of many conductors that all have one role of one system: a coil, a reel, the tails of one phase. Without
 * them the tenth conductor of one color would speak for a system as loudly as the first, and the systems with the
 * fewest roles would win every such picture.
 */
export const SOLE_ROLE = 0.05;
/** Number of ungrouped conductors in a picture of many circuits: geometric, this mean. */
export const MANY_MEAN = 15;
/**
 * A crowd of conductors in one photo says no more of the site than this many: errors of color are shared within a photo
 * (one light, one camera), conductors of one color come from one reel, and no model of a site is right to the hundredth
 * conductor, so that their evidence must not multiply as if each were news. The likelihood is raised to a power below 1,
 * as Miller and Dunson do for models that are nearly right ("Robust Bayesian inference via coarsening", Journal of the
 * American Statistical Association 114, 2019; from memory). Chosen among 8, 16, 24, 32 and 64 on invented crowds of every
 * color read twice: with 16 and 24, conductors whose name stayed changed their role surely a third as often as without;
 * with 24, sites that keep to a practice lost nothing of what they were sure of.
 */
export const CROWD = 24;
/** Power of the likelihood of a picture of so many conductors. */
export const crowdPower = (conductors: number): number => Math.min(1, CROWD / Math.max(1, conductors));
/** Shares of two systems in one picture. */
export const MIXES: readonly number[] = [0.12, 0.3, 0.5, 0.7, 0.88];
/** Shares of three systems in one picture: even, or one has more, or one has little. */
export const MIXES_OF_THREE: readonly (readonly number[])[] = [
  [1 / 3, 1 / 3, 1 / 3],
  [0.6, 0.2, 0.2],
  [0.2, 0.6, 0.2],
  [0.2, 0.2, 0.6],
  [0.1, 0.45, 0.45],
  [0.45, 0.1, 0.45],
  [0.45, 0.45, 0.1],
];

/** Share of conductors, in a picture of many circuits, that are grounding, foreign or auxiliary. */
export const EXTRA_SHARE = { ground: 0.13, foreign: 0.012, auxiliary: 0.25 } as const;
/** Weight of the grounded conductor against one phase in a picture of many circuits. */
export const NEUTRAL_AGAINST_PHASE = 0.9;

/**
 * Weight of the high leg against one phase in a picture of many circuits: no 120 V load may go on it, so that most
 * circuits of such a panel leave it out.
 */
export const HIGH_LEG_AGAINST_PHASE = 0.4;

/**
 * Shape of one circuit: probability by number of ungrounded conductors, with and without its grounded conductor.
 * The row is the number of ungrounded conductors that the system has.
 */
export const SHAPES: Readonly<
  Record<number, { readonly with: readonly number[]; readonly without: readonly number[] }>
> = {
  1: { with: [0.06, 0.8], without: [0, 0.14] },
  2: { with: [0.05, 0.25, 0.45], without: [0, 0.08, 0.17] },
  3: { with: [0.04, 0.15, 0.08, 0.4], without: [0, 0.06, 0.07, 0.2] },
};
/** Extras beside one set: k extras have probability proportional to these; beyond, each further one costs 0.3. */
export const EXTRAS = [0.3, 0.5, 0.1, 0.04] as const;
export const EXTRAS_WITH_AUXILIARY = [0.02, 0.25, 0.28, 0.2, 0.12] as const;
export const FURTHER_EXTRA = 0.3;

/**
 * A pole space decides the phase, whatever the color: what lands on the pole is what the pole is. Left over is the
 * board that was marked otherwise (408.3(E)(1) exceptions, bottom feed) and the space that was mistaken for its
 * neighbor. Raised from 0.95 after invented panels with two conductors exchanged had shown that color was believed
 * over the pole; so those panels are no independent evidence for it.
 */
export const SPACE_TRUST = 0.985;
/** A conductor that lands on a breaker pole is ungrounded. */
export const NOT_ON_A_BREAKER = 0.01;

/** Probability left unnamed for what this model does not know of. */
export const UNMODELED = 0.008;

/** Greatest probability of a role that rests on color alone, however well it fits. */
export const COLOR_CEILING = 0.975;
/** Greatest probability of a role where color leaves another role open and nothing but color speaks. */
export const COLOR_CANNOT_DECIDE = 0.9 - 1e-9;
