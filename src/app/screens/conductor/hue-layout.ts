import { type ColorName, IEC_60757 } from '../../../flow';
import type { HueCheck } from '../../../inspect';

export type HuePlane = HueCheck['picture'];

/** Half the width of the drawing, in its own units. */
export const HALF = 120;
/** Letters nearer than this would run into each other. */
const APART = { x: 24, y: 14 };
const MARGIN = 14;

export interface Label {
  readonly name: ColorName;
  readonly letters: string;
  readonly x: number;
  readonly y: number;
}

/** Drawing units per unit of the hue plane. */
export const scaleOf = (plane: HuePlane): number => (HALF - MARGIN) / Math.max(plane.extent, 1e-6);

/**
 * Where the letters of the names stand: at the middle of their regions, those that would run into one placed before
 * moved down, or up below the middle. Names given first keep their place, unless the reading's cross stands there.
 */
export function placeLabels(plane: HuePlane, first: readonly ColorName[]): Label[] {
  const k = scaleOf(plane);
  const order = [...plane.names].sort((a, b) => Number(first.includes(b.name)) - Number(first.includes(a.name)));
  const cross = { x: plane.reading.x * k, y: -plane.reading.y * k };
  const placed: Label[] = [];
  for (const { name, x, y } of order) {
    const at = { x: x * k, y: -y * k };
    const step = at.y > HALF / 2 ? -APART.y : APART.y;
    const free = (): boolean =>
      [cross, ...placed].every((p) => Math.abs(p.x - at.x) >= APART.x || Math.abs(p.y - at.y) >= APART.y);
    while (!free()) at.y += step;
    placed.push({ name, letters: IEC_60757[name], ...at });
  }
  return placed;
}

/** The names in whose usual region the middle of the reading lies. */
export function namesAround(plane: HuePlane): ColorName[] {
  const { x, y } = plane.reading;
  const inside = (e: HuePlane['names'][number]): boolean => {
    const [dx, dy] = [x - e.x, y - e.y];
    const along = dx * Math.cos(e.angle) + dy * Math.sin(e.angle);
    const across = dy * Math.cos(e.angle) - dx * Math.sin(e.angle);
    return (along / Math.max(e.long, 1e-9)) ** 2 + (across / Math.max(e.short, 1e-9)) ** 2 <= 1;
  };
  return plane.names.filter(inside).map((e) => e.name);
}
