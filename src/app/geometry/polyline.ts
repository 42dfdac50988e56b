import type { Point } from '../../flow';

const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Length of a polyline in pixels. */
export function polylineLength(line: readonly Point[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) sum += distance(line[i - 1]!, line[i]!);
  return sum;
}

/** The point at `along` pixels from the start; the ends beyond them. An empty line is at the origin. */
export function pointAlong(line: readonly Point[], along: number): Point {
  let left = along;
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1]!;
    const b = line[i]!;
    const d = distance(a, b);
    if (left <= d && d > 0) {
      const t = Math.max(0, left / d);
      return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    }
    left -= d;
  }
  return line.at(-1) ?? [0, 0];
}

/** Halfway along. */
export const middle = (line: readonly Point[]): Point => pointAlong(line, polylineLength(line) / 2);

/** Both parts of a line cut `along` pixels from its start; the cut point belongs to both. */
export function cutPolyline(line: readonly Point[], along: number): [Point[], Point[]] {
  const cut = pointAlong(line, along);
  const head: Point[] = [];
  const tail: Point[] = [];
  let sum = 0;
  line.forEach((p, i) => {
    if (i > 0) sum += distance(line[i - 1]!, p);
    if (sum < along) head.push(p);
    else if (sum > along) tail.push(p);
  });
  return [
    [...head, cut],
    [cut, ...tail],
  ];
}

/** One line out of two, turned so that the ends that lie closest meet. */
export function joinPolylines(a: readonly Point[], b: readonly Point[]): Point[] {
  const turned = (line: readonly Point[], flip: boolean): readonly Point[] => (flip ? line.toReversed() : line);
  let best: { readonly gap: number; readonly line: Point[] } | null = null;
  for (const flipA of [false, true]) {
    for (const flipB of [false, true]) {
      const head = turned(a, flipA);
      const tail = turned(b, flipB);
      const gap = distance(head.at(-1) ?? [0, 0], tail[0] ?? [0, 0]);
      if (!best || gap < best.gap) best = { gap, line: [...head, ...tail] };
    }
  }
  return best?.line ?? [];
}

/** The closed band of `width` pixels around a line. */
export function bandAround(line: readonly Point[], width: number): Point[] {
  const left: Point[] = [];
  const right: Point[] = [];
  line.forEach((p, i) => {
    const before = line[Math.max(0, i - 1)]!;
    const after = line[Math.min(line.length - 1, i + 1)]!;
    const d = distance(before, after) || 1;
    const nx = (-(after[1] - before[1]) / d) * (width / 2);
    const ny = ((after[0] - before[0]) / d) * (width / 2);
    left.push([p[0] + nx, p[1] + ny]);
    right.unshift([p[0] - nx, p[1] - ny]);
  });
  return [...left, ...right];
}
