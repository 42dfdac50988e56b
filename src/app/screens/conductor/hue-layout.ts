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
  /** Middle of the region, where the letters could not stand there: a line leads to it. */
  readonly from: { readonly x: number; readonly y: number } | null;
}

/** Drawing units per unit of the hue plane. */
export const scaleOf = (plane: HuePlane): number => (HALF - MARGIN) / Math.max(plane.extent, 1e-6);

/** Where letters are looked for round a place that is taken: nearest first, sideways before up and down. */
const AROUND = [1, 1.5, 2, 2.5, 3, 4].flatMap((far) =>
  [0, 180, 30, 150, 210, 330, 60, 120, 240, 300, 90, 270].map((degrees) => {
    const turn = (degrees * Math.PI) / 180;
    return { x: far * APART.x * Math.cos(turn), y: far * APART.y * Math.sin(turn) };
  }),
);

/**
 * Where the letters of the names stand: at the middle of their regions, or as near to it as they run into nothing that was
 * placed before, with a line that leads there. Names given first keep their place, unless the reading's cross stands there.
 */
export function placeLabels(plane: HuePlane, first: readonly ColorName[]): Label[] {
  const k = scaleOf(plane);
  const order = [...plane.names].sort((a, b) => Number(first.includes(b.name)) - Number(first.includes(a.name)));
  const cross = { x: plane.reading.x * k, y: -plane.reading.y * k };
  const placed: Label[] = [];
  for (const { name, x, y } of order) {
    const middle = { x: x * k, y: -y * k };
    const isFree = (at: typeof middle): boolean =>
      [cross, ...placed].every((p) => Math.abs(p.x - at.x) >= APART.x || Math.abs(p.y - at.y) >= APART.y);
    const near = AROUND.map((off) => ({ x: middle.x + off.x, y: middle.y + off.y }));
    const at = [middle, ...near].find(isFree) ?? middle;
    placed.push({ name, letters: IEC_60757[name], ...at, from: at === middle ? null : middle });
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
