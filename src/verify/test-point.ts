import type { Check, Reading, TestPoint } from '../flow';

export const GROUND: TestPoint = { kind: 'ground' };
export const NEUTRAL_BAR: TestPoint = { kind: 'neutral bar' };
export const at = (conductor: string): TestPoint => ({ kind: 'conductor', conductor });

/** Text that is the same for the same place. */
export function pointKey(point: TestPoint): string {
  if (point.kind === 'conductor') return `conductor ${point.conductor}`;
  if (point.kind === 'pole') return `pole ${point.system} ${point.role}`;
  return point.kind;
}

type Probing = Pick<Check | Reading, 'from' | 'to' | 'third' | 'function' | 'condition'>;

/** Places of the leads, in no order: swapping the leads makes the same check (DC flips its sign). */
export const leadsOf = (probing: Pick<Probing, 'from' | 'to' | 'third'>): string[] =>
  [probing.from, probing.to, ...(probing.third ? [probing.third] : [])].map(pointKey).sort();

const IDS = new WeakMap<Probing, string>();

/**
 * The same for a check and every reading that answers it. Rotation keeps the order of its leads, because the
 * answer depends on it. Values are never changed in place, so that an id is worked out once.
 */
export function checkId(probing: Probing): string {
  const known = IDS.get(probing);
  if (known !== undefined) return known;
  const made = idOf(probing);
  IDS.set(probing, made);
  return made;
}

function idOf(probing: Probing): string {
  const leads =
    probing.function === 'phase rotation'
      ? [probing.from, probing.to, ...(probing.third ? [probing.third] : [])].map(pointKey)
      : leadsOf(probing);
  return [probing.function, ...(probing.condition ? [probing.condition] : []), ...leads].join(' | ');
}

const PLAIN_IDS = new WeakMap<Reading, string>();

/** The id of the plain AC check that a low-impedance reading answers as well. */
function plainId(reading: Reading): string {
  const known = PLAIN_IDS.get(reading);
  if (known !== undefined) return known;
  const made = idOf({ ...reading, function: 'AC volts' });
  PLAIN_IDS.set(reading, made);
  return made;
}

/** Does this reading answer this check? A low-impedance reading also answers a check that asks for plain AC volts. */
export function answers(reading: Reading, check: Pick<Check, 'id'>): boolean {
  if (checkId(reading) === check.id) return true;
  return reading.function === 'AC volts, low impedance' && plainId(reading) === check.id;
}

export const conductorsOf = (probing: Pick<Probing, 'from' | 'to' | 'third'>): string[] =>
  [probing.from, probing.to, probing.third].flatMap((p) => (p?.kind === 'conductor' ? [p.conductor] : []));
