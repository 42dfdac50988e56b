import type { Point } from '../../flow';
import { pointAlong, polylineLength } from './polyline';

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
}

/** Places tried along a conductor, middle first. */
const SHARES = [0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86] as const;

/**
 * Where each number stands: along its own conductor, clear of the numbers placed before it. One that finds no free
 * place is left out until the user zooms in (the table has it); the selected one is placed first and always.
 */
export function placeTags(items: readonly Tagged[], selected: string | null): ReadonlyMap<string, PlacedTag> {
  const placed = new Map<string, PlacedTag>();
  const taken: { readonly at: Point; readonly half: number }[] = [];
  const order = items.toSorted((a, b) => Number(b.id === selected) - Number(a.id === selected));
  for (const { id, label, short, line } of order) {
    const length = polylineLength(line);
    for (const text of short === undefined ? [label] : [label, short]) {
      const half = tagHalfWidth(text);
      const free = SHARES.map((share) => pointAlong(line, length * share)).find((at) =>
        taken.every(
          (other) =>
            Math.abs(other.at[0] - at[0]) > other.half + half || Math.abs(other.at[1] - at[1]) > 2 * TAG_HALF_HEIGHT,
        ),
      );
      if (!free) continue;
      placed.set(id, { at: free, text });
      taken.push({ at: free, half });
      break;
    }
  }
  return placed;
}
