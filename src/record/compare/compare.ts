import {
  type ColorName,
  type Comparison,
  type Message,
  message,
  type NamedConductor,
  type Standing,
  type Termination,
  type UserWord,
} from '../../flow';
import { type Sight, sameSight } from './sight';

/** Expected against seen at one termination. */
export interface Compared {
  readonly termination: Termination;
  readonly sight: Sight;
  readonly comparison: Comparison;
  readonly because: Message;
  /** How far the conductor is proved; null when none is known. */
  readonly standing: Standing | null;
}

/** The last comparison of each termination; the schedule's lines keep their terminations. */
const known = new WeakMap<Termination, Compared>();

/** A termination compared; the object of the comparison before where it was seen and metered alike then. */
export function compareAgain(termination: Termination, sight: Sight, standing: Standing | null): Compared {
  const before = known.get(termination);
  if (before && before.standing === standing && sameSight(before.sight, sight)) return before;
  const compared = { termination, sight, standing, ...compare(termination, sight) };
  known.set(termination, compared);
  return compared;
}

/** Below this a stripe may be a reflection: it settles nothing. The color room's own bar for a sure stripe. */
const SURE_STRIPE = 0.8;

const because = (code: string, values?: Message['values']): Message => message(`record.compare.${code}`, values);
/** One name as a key of the catalogue; several as they are. */
const listed = (names: readonly ColorName[]): string =>
  names.length === 1 ? `color.name.${names[0]}` : names.join(' / ');
const named = (color: ColorName): string => `color.name.${color}`;

/**
 * Compares a termination with what was seen there. A match says that the colors agree and nothing of what is
 * connected; more than one possible color is never a match.
 */
export function compare(t: Termination, sight: Sight): Pick<Compared, 'comparison' | 'because'> {
  if (sight.kind === 'no photo') return { comparison: 'missing', because: because('no-photo') };
  if (sight.kind === 'not pointed out') {
    const count = sight.photo.findings.conductors.length;
    return {
      comparison: 'cannot tell',
      because: count === 0 ? because('none-found') : because('point-at-it', { count }),
    };
  }
  const found = compareSeen(t, sight);
  // Nobody pointed at it: what is said of the color may be true of its neighbor.
  const byOrder = sight.said?.how === 'by order' && BY_ORDER.has(found.because.code);
  return byOrder ? { ...found, because: message(`${found.because.code}-by-order`, found.because.values) } : found;
}

/** Outcomes that name what was seen: each has a sentence of its own for a conductor that was paired by order. */
const BY_ORDER: ReadonlySet<string> = new Set(
  ['match', 'match-word', 'differs', 'bare', 'stripe-differs'].map((code) => `record.compare.${code}`),
);

function compareSeen(
  t: Termination,
  { conductor, photo }: Extract<Sight, { kind: 'seen' }>,
): Pick<Compared, 'comparison' | 'because'> {
  const word = photo.words[conductor.id] ?? conductor.userWord;
  if (t.color === null) return { comparison: 'cannot tell', because: because('no-color-expected') };
  if (!word && photo.findings.capture.verdict === 'retake')
    return { comparison: 'cannot tell', because: because('retake') };
  return conductor.covering === 'bare' && !word
    ? { comparison: 'differs', because: because('bare', { expected: named(t.color) }) }
    : compareColor(t, t.color, conductor, word);
}

function compareColor(
  t: Termination,
  expected: ColorName,
  conductor: NamedConductor,
  word: UserWord | undefined,
): Pick<Compared, 'comparison' | 'because'> {
  if (word?.name === 'not decided')
    return { comparison: 'cannot tell', because: because('word-undecided', { by: word.by }) };
  const set = word ? [word.name as ColorName] : conductor.insulation.set;
  const seen = listed(set);
  const tape = conductor.tape.find((each) => each.name === expected);
  if (!set.includes(expected)) {
    if (tape) return { comparison: 'cannot tell', because: because('taped', { expected: named(expected), seen }) };
    return { comparison: 'differs', because: because('differs', { expected: named(expected), seen }) };
  }
  if (set.length > 1)
    return { comparison: 'cannot tell', because: because('several', { expected: named(expected), seen }) };
  const stripe = word?.stripe === undefined ? conductor.stripe : word.stripe && { name: word.stripe, confidence: 1 };
  if (t.stripe !== null && !stripe)
    return { comparison: 'cannot tell', because: because('stripe-not-seen', { stripe: named(t.stripe) }) };
  if (stripe && stripe.name !== t.stripe) {
    const values = { expected: t.stripe ? named(t.stripe) : 'record.compare.no-stripe', seen: named(stripe.name) };
    return stripe.confidence >= SURE_STRIPE
      ? { comparison: 'differs', because: because('stripe-differs', values) }
      : { comparison: 'cannot tell', because: because('stripe-unsure', values) };
  }
  return { comparison: 'match', because: because(word ? 'match-word' : 'match', { seen, by: word?.by ?? '' }) };
}
