import type { Point } from '../../flow';
import { type Field, indexAt, inField, type Look, lookApart, lookAt, lookDistance } from './field';
import type { Taken, TracePoint, TraceState } from './follow';
import { stateAt, summarize, type Trace, traceFrom } from './instances';

const nothingTaken: Taken = () => false;
/** A finger or a label is rarely off by more than this. */
const SEARCH_PX = 4;
/** Looks farther apart than this are different things. */
const SAME_THING = 30;

/**
 * Traces the conductor under a point. First by the segmentation: the likeliest conductor pixel within reach of the
 * point that looks like what is under it. Where the segmentation sees none there, by color alone: the narrowest
 * evenly colored strip through the point, followed straight. Undefined when the point is outside the picture.
 */
export function traceAtPoint(field: Field, at: Point): Trace | undefined {
  if (!inField(field, at[0], at[1])) return undefined;
  const under = medianLook(field, at);
  const state = segmentedState(field, at, under);
  if (state) {
    const trace = traceFrom(field, state, nothingTaken);
    if (trace.lengthPx >= 2 * state.halfWidth) return trace;
  }
  return stripAt(field, at, under);
}

/** Median look of the 3 x 3 pixels under a point. */
export function medianLook(field: Field, at: Point): Look {
  const looks: Look[] = [];
  for (let oy = -1; oy <= 1; oy++)
    for (let ox = -1; ox <= 1; ox++)
      if (inField(field, at[0] + ox, at[1] + oy)) looks.push(lookAt(field, indexAt(field, at[0] + ox, at[1] + oy)));
  const middle = (c: 0 | 1 | 2): number => looks.map((l) => l[c]).sort((a, b) => a - b)[looks.length >> 1]!;
  return [middle(0), middle(1), middle(2)];
}

function segmentedState(field: Field, at: Point, under: Look): TraceState | undefined {
  let best: TraceState | undefined;
  let bestValue = 0;
  for (let oy = -SEARCH_PX; oy <= SEARCH_PX; oy++)
    for (let ox = -SEARCH_PX; ox <= SEARCH_PX; ox++) {
      const x = at[0] + ox;
      const y = at[1] + oy;
      if (!inField(field, x, y)) continue;
      const i = indexAt(field, x, y);
      const wire = field.planes.wire[i]!;
      const off = Math.hypot(ox, oy);
      if (wire < 0.2 || off > Math.max(1.5, field.planes.halfWidth[i]! + 0.5)) continue;
      const look = lookDistance(under, lookAt(field, i));
      const value = wire * (1 - look / (2 * SAME_THING)) * (1 - (0.6 * off) / SEARCH_PX);
      if (value <= bestValue) continue;
      const state = stateAt(field, i);
      // The middle found must still have the point inside the conductor.
      if (!state || distanceAcross(state, at) > state.halfWidth + 1) continue;
      if (lookDistance(under, state.look) > SAME_THING) continue;
      best = state;
      bestValue = value;
    }
  return best;
}

const distanceAcross = (state: TraceState, at: Point): number =>
  Math.abs(-(at[0] - state.x) * state.dy + (at[1] - state.y) * state.dx);

const DIRECTIONS = 16;
const LONGEST_RUN = 60;

/** The narrowest evenly colored strip through a point: a straight piece, for lack of anything better. */
function stripAt(field: Field, at: Point, under: Look): Trace {
  const runs = Array.from({ length: DIRECTIONS }, (_, k) => {
    const angle = (k * Math.PI) / DIRECTIONS;
    const dx = Math.cos(angle);
    const dy = Math.sin(angle);
    return { dx, dy, ahead: run(field, at, dx, dy, under), back: run(field, at, -dx, -dy, under) };
  });
  let best = runs[0]!;
  let bestRatio = -1;
  runs.forEach((r, k) => {
    const across = runs[(k + DIRECTIONS / 2) % DIRECTIONS]!;
    const ratio = (r.ahead + r.back + 1) / (across.ahead + across.back + 1);
    if (ratio > bestRatio) {
      bestRatio = ratio;
      best = r;
    }
  });
  const across = runs[(runs.indexOf(best) + DIRECTIONS / 2) % DIRECTIONS]!;
  const halfWidth = Math.max(1, (across.ahead + across.back) / 2);
  const sign = across.dx * -best.dy + across.dy * best.dx >= 0 ? 1 : -1;
  const shift = (sign * (across.ahead - across.back)) / 2;
  const cx = at[0] - best.dy * shift;
  const cy = at[1] + best.dx * shift;
  const reach = (length: number): number => Math.min(length, Math.max(4, halfWidth * 6));
  const points: TracePoint[] = [];
  for (let t = -reach(best.back); t <= reach(best.ahead); t += 1.5)
    points.push({ at: [cx + best.dx * t, cy + best.dy * t], halfWidth, seen: true, wire: 0.2 });
  return summarize(points, ['lost', 'lost'], under);
}

/** Pixels from a point along a direction until the look changes. */
function run(field: Field, at: Point, dx: number, dy: number, look: Look): number {
  let t = 0;
  for (let misses = 0; t < LONGEST_RUN; t += 1) {
    const x = at[0] + dx * (t + 1);
    const y = at[1] + dy * (t + 1);
    if (!inField(field, x, y)) break;
    misses = lookApart(field, look, indexAt(field, x, y)) > 20 ? misses + 1 : 0;
    if (misses >= 2) return Math.max(0, t - 1);
  }
  return t;
}

/** Traces along a stroke the user drew: every drawn place is believed, width and look are measured on the way. */
export function traceAlong(field: Field, stroke: readonly Point[]): Trace | undefined {
  const inside = stroke.filter((p) => inField(field, p[0], p[1]));
  if (inside.length < 2) return undefined;
  const look = medianLook(field, inside[inside.length >> 1]!);
  const widths = inside.map((p) => segmentedState(field, p, look)?.halfWidth).filter((w) => w !== undefined);
  widths.sort((a, b) => a - b);
  const halfWidth = widths[widths.length >> 1] ?? stripAt(field, inside[inside.length >> 1]!, look).halfWidth;
  const points: TracePoint[] = [];
  for (let k = 1; k < inside.length; k++) {
    const [a, b] = [inside[k - 1]!, inside[k]!];
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
    for (let t = 0; t < size; t += 2)
      points.push({
        at: [a[0] + ((b[0] - a[0]) * t) / size, a[1] + ((b[1] - a[1]) * t) / size],
        halfWidth,
        seen: true,
        wire: 1,
      });
  }
  return points.length < 2 ? undefined : summarize(points, ['lost', 'lost'], look);
}

/** The piece of a trace within `reach` pixels (along it) of a point: what a tap asks about. */
export function stretchNear(trace: Trace, at: Point, reach: number): TracePoint[] {
  let nearest = 0;
  let best = Number.POSITIVE_INFINITY;
  trace.points.forEach((p, k) => {
    const d = Math.hypot(p.at[0] - at[0], p.at[1] - at[1]);
    if (d < best) {
      best = d;
      nearest = k;
    }
  });
  const from = walk(trace.points, nearest, -1, reach);
  const to = walk(trace.points, nearest, 1, reach);
  return trace.points.slice(from, to + 1);
}

function walk(points: readonly TracePoint[], start: number, side: 1 | -1, reach: number): number {
  let k = start;
  let gone = 0;
  while (k + side >= 0 && k + side < points.length) {
    const [a, b] = [points[k]!.at, points[k + side]!.at];
    gone += Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (gone > reach) break;
    k += side;
  }
  return k;
}
