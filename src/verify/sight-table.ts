import type { Reading, TestPoint } from '../flow';
import { type Sight, sightKey } from './likelihood';
import { sightOf } from './sight';
import type { State } from './state';
import { pointKey } from './test-point';
import type { VariantCore } from './variant';

/**
 * What a kind of reading would see for every combination of states, as classes: `of[i + n j + n n k]` is the class
 * of states i, j, k of its conductors in the order of the leads (fixed leads take no place).
 */
export interface SightTable {
  readonly classes: readonly NumberedSight[];
  readonly of: Uint16Array;
}

/** A sight and its number, the same for the same sight in any table. */
export interface NumberedSight {
  readonly id: number;
  readonly sight: Sight;
}

/** Sights met so far; they depend on nothing but nominal voltages, so there are a few thousand at most. */
const NUMBERED = new Map<string, NumberedSight>();

function numbered(sight: Sight): NumberedSight {
  const key = sightKey(sight);
  const known = NUMBERED.get(key);
  if (known) return known;
  const made = { id: NUMBERED.size, sight };
  NUMBERED.set(key, made);
  return made;
}

/** Tables depend only on the supply and the kind of reading, so they outlive a judgement. */
const KEPT = new Map<string, SightTable>();
/** Long use on many sites must not grow without bound. */
const MOST_KEPT = 4000;

const leadShape = (point: TestPoint | undefined): string =>
  point === undefined ? '-' : point.kind === 'conductor' ? '*' : pointKey(point);

function build(core: VariantCore, reading: Reading): SightTable {
  const leads = [reading.from, reading.to, ...(reading.third ? [reading.third] : [])];
  const free = leads.flatMap((p, i) => (p.kind === 'conductor' ? [i] : []));
  const { states } = core;
  const size = states.length ** free.length;
  const of = new Uint16Array(size);
  const classes: NumberedSight[] = [];
  const index = new Map<number, number>();
  const pick: (State | null)[] = leads.map(() => null);
  for (let at = 0; at < size; at++) {
    let rest = at;
    for (const lead of free) {
      pick[lead] = states[rest % states.length] ?? null;
      rest = Math.floor(rest / states.length);
    }
    const one = numbered(sightOf(reading, pick, core));
    const known = index.get(one.id);
    const place = known ?? classes.length;
    if (known === undefined) {
      index.set(one.id, place);
      classes.push(one);
    }
    of[at] = place;
  }
  return { classes, of };
}

/** The table for a reading under a supply; made once per kind of reading. */
export function sightTable(core: VariantCore, reading: Reading): SightTable {
  const shape = [reading.from, reading.to, reading.third].map(leadShape).join('|');
  const key = `${core.key}#${reading.function}#${reading.condition ?? ''}#${shape}`;
  const known = KEPT.get(key);
  if (known) return known;
  if (KEPT.size >= MOST_KEPT) KEPT.clear();
  const made = build(core, reading);
  KEPT.set(key, made);
  return made;
}
