import type { Point } from '../../flow';
import { type Field, forDiskRows, indexAt, type Look, lookAt, zeroPlane } from './field';
import { crossSection, follow, type StopReason, type Taken, type TracePoint, type TraceState, Visited } from './follow';

/** A traced length before it is named. */
export interface Trace {
  readonly points: readonly TracePoint[];
  readonly stops: readonly [StopReason, StopReason];
  /** Mean wire probability over the seen steps. */
  readonly wire: number;
  readonly lengthPx: number;
  readonly halfWidth: number;
  readonly look: Look;
}

const SEED_STRIDE = 3;
const SHORTEST_PX = 7;

/** Which pixels belong to a trace, and which way it runs there. */
class Ownership {
  /** Place of the way at each pixel among `ways`, from 1; 0 where no trace is. */
  private readonly place: Float32Array;
  /** Two numbers of a unit vector each, after a pair that stands for none. */
  private readonly ways = [0, 0];

  constructor(private readonly field: Field) {
    this.place = zeroPlane(field);
  }

  readonly taken: Taken = (x, y, dx, dy) => {
    const place = this.place[indexAt(this.field, x, y)]!;
    if (place === 0) return false;
    const along = Math.abs(this.ways[place * 2]! * dx + this.ways[place * 2 + 1]! * dy);
    return along > 0.88;
  };

  has = (i: number): boolean => this.place[i] !== 0;

  claim(points: readonly TracePoint[]): void {
    for (let k = 0; k < points.length; k++) {
      const p = points[k]!;
      if (!p.seen) continue;
      const a = points[Math.max(0, k - 1)]!.at;
      const b = points[Math.min(points.length - 1, k + 1)]!.at;
      const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
      const place = this.ways.length / 2;
      this.ways.push(Math.fround((b[0] - a[0]) / size), Math.fround((b[1] - a[1]) / size));
      const r = Math.max(1, p.halfWidth * 0.95);
      forDiskRows(this.field, p.at, r, (from, to) => {
        for (let i = from; i < to; i++) this.place[i] = place;
      });
    }
  }
}

/** Places of a rank in the keys that seeds are sorted by, and of a pixel: 2^22 pixels are more than a working image has. */
const RANKS = 2 ** 30;
const PIXELS = 2 ** 22;

/** Pixel of a key. By `%` it would take as long as all the tracing. */
const pixelOf = (key: number): number => key - Math.floor(key / PIXELS) * PIXELS;

/** Keys of seeds, surest first: pixels on a coarse grid where a conductor is likely and its direction known. */
function seeds(field: Field): Float64Array {
  const { planes, width, height } = field;
  // Rank and pixel in one number each: numbers sort ten times as fast by themselves as by a comparison.
  const keys: number[] = [];
  for (let y = 2; y < height - 2; y += SEED_STRIDE)
    for (let x = 2; x < width - 2; x += SEED_STRIDE) {
      const i = y * width + x;
      if (planes.wire[i]! < field.seed || planes.halfWidth[i]! < 1 || planes.edge[i]! >= 0.5) continue;
      const rank = planes.wire[i]! + 0.02 * Math.min(10, planes.halfWidth[i]!);
      keys.push(Math.round((1.2 - rank) * RANKS) * PIXELS + i);
    }
  return new Float64Array(keys).sort();
}

/** State of a trace that starts at pixel `i`, moved to the middle of what lies there. */
export function stateAt(field: Field, i: number): TraceState | undefined {
  const { planes, width } = field;
  const angle = 0.5 * Math.atan2(planes.direction[i * 2 + 1]!, planes.direction[i * 2]!);
  const dx = Math.cos(angle);
  const dy = Math.sin(angle);
  const x = (i % width) + 0.5;
  const y = Math.floor(i / width) + 0.5;
  const look = lookAt(field, i);
  const section = crossSection(field, x, y, dx, dy, Math.max(1, planes.halfWidth[i]! * 0.5), look);
  if (!section) return undefined;
  return {
    origin: look,
    x: x - dy * section.offset,
    y: y + dx * section.offset,
    dx: section.dx,
    dy: section.dy,
    halfWidth: section.halfWidth,
    look,
  };
}

/** Traces both ways from a state. */
export function traceFrom(field: Field, state: TraceState, taken: Taken): Trace {
  const visited = new Visited();
  const forward = follow(field, state, taken, visited, 1);
  const backward = follow(field, { ...state, dx: -state.dx, dy: -state.dy }, taken, visited, -1);
  const seed: TracePoint = { at: [state.x, state.y], halfWidth: state.halfWidth, seen: true, wire: 1 };
  const points = [...backward.points.reverse(), seed, ...forward.points];
  return summarize(points, [backward.stop, forward.stop], state.look);
}

export function summarize(points: readonly TracePoint[], stops: Trace['stops'], look: Look): Trace {
  const seen = points.filter((p) => p.seen);
  const halves = seen.map((p) => p.halfWidth).sort((a, b) => a - b);
  let lengthPx = 0;
  for (let k = 1; k < points.length; k++) lengthPx += gap(points[k - 1]!.at, points[k]!.at);
  return {
    points,
    stops,
    wire: seen.reduce((sum, p) => sum + p.wire, 0) / Math.max(1, seen.length),
    lengthPx,
    halfWidth: halves[halves.length >> 1] ?? 1,
    look,
  };
}

export const gap = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Every conductor that can be found with nobody pointing, longest and surest first. */
export function traceAll(field: Field, limit = 400): Trace[] {
  const ownership = new Ownership(field);
  const traces: Trace[] = [];
  for (const key of seeds(field)) {
    const i = pixelOf(key);
    if (ownership.has(i)) continue;
    const state = stateAt(field, i);
    if (!state || ownership.has(indexAt(field, state.x, state.y))) continue;
    const trace = traceFrom(field, state, ownership.taken);
    ownership.claim(trace.points);
    if (trace.lengthPx < field.shortest * 2 * trace.halfWidth || trace.lengthPx < SHORTEST_PX) continue;
    traces.push(trace);
    if (traces.length >= limit) break;
  }
  return traces;
}
