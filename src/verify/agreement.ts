import { type ExpectedReading, message, type Reading } from '../flow';
import type { Claim } from './claim';
import { type End, endOf, expectedOhms, expectedVolts } from './end';
import type { BandOptions } from './expected-voltage';
import type { Models } from './models';
import { isDirect } from './plausible';

/** `says nothing`: the claims expect nothing of this pair, or the function cannot show it. */
export type Agreement = 'agrees' | 'contradicts' | 'says nothing';

export interface Judged {
  readonly agreement: Agreement;
  readonly expected: ExpectedReading | null;
}

export interface Belief {
  readonly claims: ReadonlyMap<string, Claim>;
  readonly models: Models;
  readonly band: BandOptions;
}

type Probing = Pick<Reading, 'from' | 'to' | 'third' | 'function' | 'condition'>;

/** What the claims expect of a pair of places under a function and condition; null where they expect nothing. */
export function expectation(probing: Probing, belief: Belief): ExpectedReading | null {
  const a = endOf(probing.from, belief.claims);
  const b = endOf(probing.to, belief.claims);
  if (!a || !b) return null;
  if (probing.function === 'tone') return null;
  if (probing.function === 'continuity') return expectedOhms(a, b, probing.condition);
  if (probing.function === 'phase rotation') return expectedRotation(probing, belief);
  const traveler = a.role === 'traveler' || b.role === 'traveler';
  if (traveler) return null;
  const expected = voltsBetween(a, b, probing.condition, belief);
  if (!expected) return null;
  const direct = belief.models(expected.system)?.current === 'DC';
  return direct === isDirect(probing) ? expected : null;
}

type Known = Map<string, ExpectedReading | null>;
/** Expected volts worked out before; they rest on the ends, the condition, the models and the band alone. */
const KNOWN = new WeakMap<Models, WeakMap<BandOptions, Known>>();

function knownFor({ models, band }: Belief): Known {
  const byBand = KNOWN.get(models) ?? new WeakMap<BandOptions, Known>();
  KNOWN.set(models, byBand);
  const known: Known = byBand.get(band) ?? new Map();
  byBand.set(band, known);
  return known;
}

function voltsBetween(a: End, b: End, condition: Reading['condition'], belief: Belief): ExpectedReading | null {
  const known = knownFor(belief);
  const key = [a.system, a.role, b.system, b.role, condition].join('|');
  const found = known.get(key);
  if (found !== undefined) return found;
  const made = expectedVolts(a, b, condition, belief.models, belief.band);
  known.set(key, made);
  return made;
}

/** Order of the letters as the leads A, B, C of the tester stand on them; the high leg stands on the phase it is. */
function expectedRotation(probing: Probing, belief: Belief): ExpectedReading | null {
  const points = [probing.from, probing.to, probing.third].flatMap((p) => (p ? [p] : []));
  const ends = points.map((p) => endOf(p, belief.claims));
  const [a, b, c] = ends;
  if (!a || !b || !c || a.system === null || a.system !== b.system || b.system !== c.system) return null;
  const model = belief.models(a.system);
  if (!model?.rotates) return null;
  const at = ends.map((e) => model.points.find((p) => p.role === e?.role)?.at);
  const [x, y, z] = at;
  if (!x || !y || !z) return null;
  const turn = (y.re - x.re) * (z.im - x.im) - (y.im - x.im) * (z.re - x.re);
  if (Math.abs(turn) < 1) return null;
  return {
    system: model.id,
    between: [a.role, b.role],
    nominal: 0,
    low: 0,
    high: 0,
    band: message('verify.band.rotation'),
    rotation: turn < 0 ? 'ABC' : 'CBA',
  };
}

const inside = (value: number, { low, high }: ExpectedReading): boolean => value >= low && value <= high;

/** Is the value of a reading what is expected? */
export function fits(value: Reading['value'], expected: ExpectedReading): boolean {
  if (expected.rotation) return value === expected.rotation;
  if (expected.open) return value === 'OL' || (typeof value === 'number' && value >= expected.low);
  return typeof value === 'number' && inside(value, expected);
}

/** A reading against the claims. DC read with the leads swapped is expected with the other sign by its own ends. */
export function judgeReading(reading: Reading, belief: Belief): Judged {
  const expected = expectation(reading, belief);
  if (!expected) return { agreement: 'says nothing', expected };
  return { agreement: fits(reading.value, expected) ? 'agrees' : 'contradicts', expected };
}
