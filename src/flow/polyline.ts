import type { Point } from './geometry';

const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export interface Nearest {
  readonly point: Point;
  readonly distance: number;
  /** Pixels from the start of the line. */
  readonly along: number;
}

/** The place of a polyline nearest to `at`, or null for an empty one. */
export function nearestOnPolyline(line: readonly Point[], at: Point): Nearest | null {
  const first = line[0];
  if (!first) return null;
  let best: Nearest = { point: first, distance: distance(first, at), along: 0 };
  let before = 0;
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1]!;
    const b = line[i]!;
    const d = distance(a, b);
    const t = d === 0 ? 0 : ((at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1])) / (d * d);
    const s = Math.min(1, Math.max(0, t));
    const point: Point = [a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s];
    const away = distance(point, at);
    if (away < best.distance) best = { point, distance: away, along: before + d * s };
    before += d;
  }
  return best;
}
