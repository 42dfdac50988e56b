import type { Point, Polygon } from '../../flow';
import type { TracePoint } from './follow';

/** A polygon turns at most this much before a new one starts, so that none folds over itself. */
const MOST_TURN = (150 * Math.PI) / 180;

/**
 * Outlines of the seen stretches of a trace: the center line moved out by the half-width on both sides. A new
 * polygon starts where something lies across and where the line has turned far.
 */
export function outlines(points: readonly TracePoint[]): Polygon[] {
  const polygons: Polygon[] = [];
  let left: Point[] = [];
  let right: Point[] = [];
  let turned = 0;
  let last: number | undefined;
  const close = (): void => {
    if (left.length >= 2) polygons.push([...left, ...right.reverse()]);
    left = [];
    right = [];
    turned = 0;
    last = undefined;
  };
  points.forEach((p, k) => {
    if (!p.seen) {
      close();
      return;
    }
    const a = points[Math.max(0, k - 2)]!.at;
    const b = points[Math.min(points.length - 1, k + 2)]!.at;
    const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
    if (last !== undefined) turned += Math.abs(Math.atan2(Math.sin(angle - last), Math.cos(angle - last)));
    last = angle;
    const nx = -Math.sin(angle) * p.halfWidth;
    const ny = Math.cos(angle) * p.halfWidth;
    left.push(round(p.at[0] + nx, p.at[1] + ny));
    right.push(round(p.at[0] - nx, p.at[1] - ny));
    if (turned > MOST_TURN) {
      const [l, r] = [left.at(-1)!, right.at(-1)!];
      close();
      left.push(l);
      right.push(r);
    }
  });
  close();
  return polygons;
}

const round = (x: number, y: number): Point => [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
