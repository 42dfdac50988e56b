import { COLOR_NAMES, type ColorName, type NamedConductor } from '../../flow';
import type { StripeRule } from '../convention';
import { COLOR_INDEX, undoAging } from './aging';
import { tapeConfidence } from './tape-cover';

/**
 * What the photo and the user say of one conductor, as likelihood ratios: 1 means that the observation is as
 * probable as for an average conductor.
 */
export interface Evidence {
  readonly id: string;
  /** By color the insulation was made in (aging undone), order of COLOR_NAMES. */
  readonly body: Float64Array;
  /** Likelihood ratio of having no stripe. */
  readonly plain: number;
  /** Likelihood ratio of having a stripe of each color. */
  readonly striped: Float64Array;
  /** Tape colors, or null without tape. */
  readonly tape: Float64Array | null;
  /** Probability that the tape is really there, 0 to 1. */
  readonly taped: number;
  /** Likelihood ratios of bare metal and of insulation. */
  readonly bare: number;
  readonly insulated: number;
  /** Probability that this is a conductor at all. */
  readonly presence: number;
}

const COUNT = COLOR_NAMES.length;
/** A user who names a color is believed to this degree; the rest goes back to the reading. */
const USER_TRUST = 0.99;
/** No reading is so sure that another color is impossible. */
const COLOR_FLOOR = 0.002;
/** Shares of striped and of bare conductors that a reader meets on average; turn its probabilities into ratios. */
const STRIPED_SHARE = 0.1;
export const BARE_SHARE = 0.05;
const RATIO_FLOOR = 0.003;

/** Probabilities over all names: what the reading leaves over is spread on the names it does not list. */
function seenColors(conductor: NamedConductor): Float64Array {
  const seen = new Float64Array(COUNT);
  let listed = 0;
  for (const { name, probability } of conductor.insulation.candidates) {
    const p = Number.isFinite(probability) ? Math.max(0, probability) : 0;
    seen[COLOR_INDEX[name]] = seen[COLOR_INDEX[name]]! + p;
    listed += p;
  }
  if (listed > 1) for (let i = 0; i < COUNT; i++) seen[i] = seen[i]! / listed;
  const rest = Math.max(0, 1 - listed) / COUNT;
  for (let i = 0; i < COUNT; i++) seen[i] = seen[i]! + rest;
  const word = conductor.userWord?.name;
  if (word === undefined) return seen;
  // "Not decided" by eye: only what both the reading and the eye leave open, so the reading is flattened.
  if (word === 'not decided') return seen.map((p) => 0.5 * p + 0.5 / COUNT);
  return seen.map((p, i) => (1 - USER_TRUST) * p + (i === COLOR_INDEX[word] ? USER_TRUST : 0));
}

function bodyRatios(conductor: NamedConductor): Float64Array {
  const seen = seenColors(conductor).map((p) => (1 - COLOR_FLOOR) * p + COLOR_FLOOR / COUNT);
  return undoAging(seen).map((p) => p * COUNT);
}

interface StripeRatios {
  readonly plain: number;
  readonly striped: Float64Array;
}

function stripeSeen(name: ColorName, confidence: number): StripeRatios {
  const c = Math.min(0.995, Math.max(0, confidence));
  const each = STRIPED_SHARE / COUNT;
  // What is left is mostly "it was print or a scratch", sometimes another color.
  const other = ((1 - c) * 0.3) / (COUNT - 1) / each;
  const striped = new Float64Array(COUNT).fill(Math.max(RATIO_FLOOR, other));
  striped[COLOR_INDEX[name]] = c / each;
  return { plain: Math.max(RATIO_FLOOR, ((1 - c) * 0.7) / (1 - STRIPED_SHARE)), striped };
}

function stripeUnseen(hidden: number): StripeRatios {
  const h = Math.min(0.9, Math.max(0, hidden));
  const ratio = h / (1 - h) / (STRIPED_SHARE / (1 - STRIPED_SHARE));
  return { plain: 1, striped: new Float64Array(COUNT).fill(Math.min(1, Math.max(0.02, ratio))) };
}

function stripeRatios(conductor: NamedConductor): StripeRatios {
  const said = conductor.userWord?.stripe;
  if (said === null) return stripeUnseen(0);
  if (said !== undefined) return stripeSeen(said, USER_TRUST);
  if (conductor.stripe) return stripeSeen(conductor.stripe.name, conductor.stripe.confidence);
  return stripeUnseen(conductor.hiddenStripe);
}

function tapeRatios(conductor: NamedConductor): { colors: Float64Array | null; taped: number } {
  const said = conductor.userWord?.tape;
  const tape: readonly { readonly name: ColorName; readonly confidence: number }[] =
    said === undefined
      ? conductor.tape.map((t) => ({ name: t.name, confidence: tapeConfidence(t) }))
      : said === null
        ? []
        : [{ name: said, confidence: USER_TRUST }];
  if (tape.length === 0) return { colors: null, taped: 0 };
  const colors = new Float64Array(COUNT);
  let none = 1;
  for (const { confidence } of tape) none *= 1 - Math.min(0.995, Math.max(0, confidence));
  let sum = 0;
  for (const { name, confidence } of tape) {
    const c = Math.max(1e-6, confidence);
    colors[COLOR_INDEX[name]] = colors[COLOR_INDEX[name]]! + c;
    sum += c;
  }
  const sure = 0.97;
  return { colors: colors.map((c) => ((c / sum) * sure + (1 - sure) / COUNT) * COUNT), taped: 1 - none };
}

/** Reads one conductor. Throws nothing; odd numbers (negative, above 1, NaN) are clamped. */
export function readEvidence(conductor: NamedConductor): Evidence {
  const said = conductor.userWord !== undefined && conductor.userWord.name !== 'not decided';
  const sure = Math.min(1, Math.max(0, conductor.coveringConfidence));
  const bare = said ? 0.002 : conductor.covering === 'bare' ? sure : 1 - sure;
  const tape = tapeRatios(conductor);
  return {
    id: conductor.id,
    body: bodyRatios(conductor),
    ...stripeRatios(conductor),
    tape: tape.colors,
    taped: tape.taped,
    bare: bare / BARE_SHARE,
    insulated: (1 - bare) / (1 - BARE_SHARE),
    presence: Math.min(1, Math.max(0.001, conductor.presence)),
  };
}

const FORBIDDEN = new Set<ColorName>(['white', 'green', 'gray', 'green-yellow']);
/** Stripe colors that NEC 517.160(A)(5) (2017) calls distinctive: any but white, green and gray. */
export const DISTINCTIVE: readonly ColorName[] = COLOR_NAMES.filter((name) => !FORBIDDEN.has(name));

/** Likelihood ratio of the stripe that a convention asks for on insulation of a color. */
export function stripeRatio(evidence: Evidence, stripe: StripeRule, body: ColorName): number {
  if (stripe !== 'distinctive') return evidence.striped[COLOR_INDEX[stripe]]!;
  let sum = 0;
  let n = 0;
  for (const name of DISTINCTIVE) {
    if (name === body) continue;
    sum += evidence.striped[COLOR_INDEX[name]]!;
    n++;
  }
  return sum / n;
}
