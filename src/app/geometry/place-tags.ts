import type { Point } from '../../flow';
import { pointAlong, polylineLength } from './polyline';
import type { Size } from './view';

export const TAG_HALF_HEIGHT = 10;

/** Half the width of a tag with this text, CSS pixels: the label face is 8 px wide a character. */
export const tagHalfWidth = (label: string): number => 5 + label.length * 4;

interface Tagged {
  readonly id: string;
  readonly label: string;
  /** What to write where the label finds no room. */
  readonly short?: string;
  /** Center line in window pixels. */
  readonly line: readonly Point[];
}

/** Where a tag stands and what it says. */
export interface PlacedTag {
  readonly at: Point;
  readonly text: string;
  /** Place on the conductor that a line leads to, where the tag had to stand beside it. */
  readonly leader?: Point;
}

/** Places tried along a conductor, middle first. */
const SHARES = [0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86] as const;
/** Distances and directions tried beside a conductor that has no free place on it, CSS pixels and eighths of a turn. */
const RINGS = [26, 44, 62] as const;
const EIGHTHS = [0, 4, 2, 6, 1, 3, 5, 7] as const;

/** From this share of the tags on, all say what they have room for; below it, a picture of long and short ones misleads. */
const MOST = 0.75;

interface Box {
  readonly at: Point;
  readonly half: number;
}

const clear = (a: Box, b: Box): boolean =>
  Math.abs(a.at[0] - b.at[0]) > a.half + b.half || Math.abs(a.at[1] - b.at[1]) > 2 * TAG_HALF_HEIGHT;

const inside = ({ at: [x, y], half }: Box, { width, height }: Size): boolean =>
  x >= half && x <= width - half && y >= TAG_HALF_HEIGHT && y <= height - TAG_HALF_HEIGHT;

/** A free place on the line itself, or beside it with the place it belongs to. */
function freePlace(
  line: readonly Point[],
  half: number,
  taken: readonly Box[],
  window: Size | null,
): Omit<PlacedTag, 'text'> | null {
  const length = polylineLength(line);
  const free = (at: Point): boolean =>
    (window === null || inside({ at, half }, window)) && taken.every((other) => clear({ at, half }, other));
  const own = SHARES.map((share) => pointAlong(line, length * share));
  const on = own.find(free);
  if (on) return { at: on };
  for (const ring of RINGS)
    for (const leader of own)
      for (const eighth of EIGHTHS) {
        const turn = (eighth * Math.PI) / 4;
        const at: Point = [leader[0] + ring * Math.cos(turn), leader[1] + ring * Math.sin(turn)];
        if (free(at)) return { at, leader };
      }
  return null;
}

/**
 * Where each tag stands, clear of all others. The selected one is placed first, with all that it says; then every
 * number gets a place, on its own conductor or beside it with a line to it, before any other tag says more than its
 * number: in a crowd the number is what the list beside the picture goes by. Where most cannot say more, only the
 * selected one does. One that finds no place even so is left out until the user zooms in. `window`: tags keep inside.
 */
export function placeTags(
  items: readonly Tagged[],
  selected: string | null,
  window: Size | null = null,
): ReadonlyMap<string, PlacedTag> {
  const placed = new Map<string, PlacedTag & Box>();
  const others = (id: string): Box[] => [...placed].filter(([other]) => other !== id).map(([, box]) => box);
  for (const { id, label, short, line } of items.toSorted(
    (a, b) => Number(b.id === selected) - Number(a.id === selected),
  )) {
    const text = id === selected ? label : (short ?? label);
    const half = tagHalfWidth(text);
    const place =
      freePlace(line, half, others(id), window) ?? (id === selected ? freePlace(line, half, [], null) : null);
    if (place) placed.set(id, { ...place, text, half });
  }
  const numbers = new Map(placed);
  for (const { id, label, line } of items) {
    const now = placed.get(id);
    if (!now || now.leader || now.text === label) continue;
    const half = tagHalfWidth(label);
    const place = freePlace(line, half, others(id), window);
    if (place && !place.leader) placed.set(id, { ...place, text: label, half });
  }
  const telling = items.filter(({ id, label }) => placed.get(id)?.text === label).length;
  const shown = telling >= MOST * items.length ? placed : numbers;
  return new Map([...shown].map(([id, { half: _, ...tag }]) => [id, tag]));
}
