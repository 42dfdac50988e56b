import type { Crossing, Point } from '../../flow';
import type { TracedConductor } from './conductor';
import { type Look, lookDistance } from './field';
import type { TracePoint } from './follow';
import { gap } from './instances';

/** Lengths that meet at less than this angle run along each other; that is no crossing. */
const LEAST_SINE = Math.sin((12 * Math.PI) / 180);
/** Bending and change of look that count as much as each other, as in `link.ts`. */
const TURN = (40 * Math.PI) / 180;
const LOOK = 26;
/** Steepness: a pairing that is dearer by one of these is less likely by e. Judgement. */
const SOFT = 0.35;
/** Side of a bucket in which meeting lengths are looked for, pixels. */
const BUCKET = 16;
/** Key of a bucket; no picture is so wide that two would share one. */
const bucketOf = (x: number, y: number): number => y * 2 ** 16 + x;

/** Where something lies across a trace: the unseen stretches between seen ones. */
export function gapsOf(points: readonly TracePoint[]): Point[] {
  const gaps: Point[] = [];
  let start = -1;
  points.forEach((p, k) => {
    if (!p.seen && start < 0) start = k;
    if (p.seen && start >= 0) {
      if (start > 0) gaps.push(points[(start + k) >> 1]!.at);
      start = -1;
    }
  });
  return gaps;
}

/** A meeting of two traces, before it is judged. `over`: probability that the first lies on top. */
interface Meeting {
  readonly a: number;
  readonly b: number;
  readonly at: Point;
  readonly over: number;
}

/**
 * Fills in the crossings of all conductors: at each place which other conductor is met, which lies on top, and how
 * probable it is that each goes on as traced rather than as the other does. Both conductors carry the crossing.
 * Gaps under something that was not found keep an empty `with`.
 */
export function withCrossings(
  traced: readonly TracedConductor[],
  links: ReadonlyMap<TracedConductor, number>,
): TracedConductor[] {
  const meetings = merge(traced, [...gapMeetings(traced), ...intersections(traced)]);
  const crossings: Crossing[][] = traced.map(() => []);
  for (const { a, b, at, over } of meetings) {
    const here: Point = [tenth(at[0]), tenth(at[1])];
    // A trace joined from pieces is no surer than its weakest join, wherever it passes underneath.
    const joined = over < 0.5 ? links.get(traced[a]!) : over > 0.5 ? links.get(traced[b]!) : undefined;
    const kept = Math.min(pairing(traced[a]!, traced[b]!, at), joined ?? 1);
    const linkProbability = Math.round(kept * 1000) / 1000;
    const entry = (other: number, overProbability: number): Crossing => ({
      at: here,
      with: traced[other]!.conductor.id,
      overProbability,
      linkProbability,
    });
    crossings[a]!.push(entry(b, over));
    crossings[b]!.push(entry(a, 1 - over));
  }
  traced.forEach((one, k) => {
    for (const at of gapsOf(one.trace.points)) {
      const met = meetings.some((m) => (m.a === k || m.b === k) && gap(m.at, at) < 2 * one.trace.halfWidth + 4);
      if (!met)
        crossings[k]!.push({
          at: [tenth(at[0]), tenth(at[1])],
          with: '',
          overProbability: 0.1,
          linkProbability: links.get(one) ?? 1,
        });
    }
  });
  return traced.map((one, k) => ({ ...one, conductor: { ...one.conductor, crossings: crossings[k]! } }));
}

/** Gaps of one conductor that another passes through. */
function gapMeetings(traced: readonly TracedConductor[]): Meeting[] {
  const meetings: Meeting[] = [];
  traced.forEach(({ trace }, a) => {
    for (const at of gapsOf(trace.points)) {
      let best = -1;
      let bestDistance = trace.halfWidth * 2 + 4;
      traced.forEach((other, b) => {
        if (a === b) return;
        for (const p of other.trace.points) {
          if (!p.seen) continue;
          // Farther off along one axis alone than the nearest so far: most points are.
          if (Math.abs(p.at[0] - at[0]) - p.halfWidth >= bestDistance) continue;
          const d = gap(p.at, at) - p.halfWidth;
          if (d < bestDistance) {
            bestDistance = d;
            best = b;
          }
        }
      });
      if (best >= 0) meetings.push({ a, b: best, at, over: 0.1 });
    }
  });
  return meetings;
}

const NONE: readonly never[] = [];

/** Places where two center lines cut each other. */
function intersections(traced: readonly TracedConductor[]): Meeting[] {
  const buckets = new Map<number, { readonly a: number; readonly k: number }[]>();
  const meetings: Meeting[] = [];
  traced.forEach(({ trace }, a) => {
    for (let k = 1; k < trace.points.length; k++) {
      const p = trace.points[k - 1]!;
      const q = trace.points[k]!;
      const x = Math.floor((p.at[0] + q.at[0]) / 2 / BUCKET);
      const y = Math.floor((p.at[1] + q.at[1]) / 2 / BUCKET);
      for (let oy = -1; oy <= 1; oy++)
        for (let ox = -1; ox <= 1; ox++)
          for (const met of buckets.get(bucketOf(x + ox, y + oy)) ?? NONE) {
            if (met.a === a) continue;
            const others = traced[met.a]!.trace.points;
            const r = others[met.k - 1]!;
            const at = cut(p.at, q.at, r.at, others[met.k]!.at);
            if (!at) continue;
            const over = p.seen === r.seen ? 0.5 : p.seen ? 0.9 : 0.1;
            meetings.push({ a, b: met.a, at, over });
          }
      const here = buckets.get(bucketOf(x, y));
      if (here) here.push({ a, k });
      else buckets.set(bucketOf(x, y), [{ a, k }]);
    }
  });
  return meetings;
}

/** Where the stretches pq and rs cut each other at an angle worth the name, if they do. */
function cut(p: Point, q: Point, r: Point, s: Point): Point | undefined {
  const [ax, ay] = [q[0] - p[0], q[1] - p[1]];
  const [bx, by] = [s[0] - r[0], s[1] - r[1]];
  const cross = ax * by - ay * bx;
  if (Math.abs(cross) < LEAST_SINE * Math.hypot(ax, ay) * Math.hypot(bx, by)) return undefined;
  if (cross === 0) return undefined;
  const t = ((r[0] - p[0]) * by - (r[1] - p[1]) * bx) / cross;
  const u = ((r[0] - p[0]) * ay - (r[1] - p[1]) * ax) / cross;
  return t < 0 || t > 1 || u < 0 || u > 1 ? undefined : [p[0] + t * ax, p[1] + t * ay];
}

/** The same two conductors met at nearly the same place are met once. */
function merge(traced: readonly TracedConductor[], meetings: readonly Meeting[]): Meeting[] {
  const kept: Meeting[] = [];
  for (const one of meetings) {
    const near = traced[one.a]!.trace.halfWidth + traced[one.b]!.trace.halfWidth + 4;
    const same = (m: Meeting): boolean =>
      Math.min(m.a, m.b) === Math.min(one.a, one.b) &&
      Math.max(m.a, m.b) === Math.max(one.a, one.b) &&
      gap(m.at, one.at) < near;
    if (!kept.some(same)) kept.push(one);
  }
  return kept;
}

/** A stretch before or after a crossing: which way it leads away from it, and how it looks and how thick it is there. */
interface Arm {
  readonly away: Point;
  readonly halfWidth: number;
  readonly look: Look;
}

/**
 * Probability that two conductors which meet at a place go on as traced and not each as the other does: how much
 * bending and change of width the traced pairing asks for, against the better of the two others. Where one of them
 * ends at the place there is nothing to exchange, and the answer is 1.
 */
function pairing(first: TracedConductor, second: TracedConductor, at: Point): number {
  const a = arms(first, at);
  const b = arms(second, at);
  if (!a || !b) return 1;
  const traced = cost(a[0], a[1]) + cost(b[0], b[1]);
  const exchanged = Math.min(cost(a[0], b[0]) + cost(a[1], b[1]), cost(a[0], b[1]) + cost(a[1], b[0]));
  return 1 / (1 + Math.exp((traced - exchanged) / SOFT));
}

function arms({ trace }: TracedConductor, at: Point): readonly [Arm, Arm] | undefined {
  let nearest = 0;
  trace.points.forEach((p, k) => {
    if (gap(p.at, at) < gap(trace.points[nearest]!.at, at)) nearest = k;
  });
  const arm = (step: 1 | -1): Arm | undefined => {
    // The crossing itself is left out: there the other conductor is measured.
    const from = 2 * trace.halfWidth + 2;
    const to = from + 4 * trace.halfWidth + 4;
    let begin: TracePoint | undefined;
    for (let k = nearest; k >= 0 && k < trace.points.length; k += step) {
      const p = trace.points[k]!;
      const d = gap(p.at, at);
      if (!begin && d >= from && p.seen) begin = p;
      if (begin && d >= to) {
        const size = gap(p.at, begin.at) || 1;
        const away: Point = [(p.at[0] - begin.at[0]) / size, (p.at[1] - begin.at[1]) / size];
        return { away, halfWidth: (p.halfWidth + begin.halfWidth) / 2, look: trace.look };
      }
    }
    return undefined;
  };
  const [back, on] = [arm(-1), arm(1)];
  return back && on ? [back, on] : undefined;
}

function cost(p: Arm, q: Arm): number {
  const turn = Math.acos(Math.max(-1, Math.min(1, -(p.away[0] * q.away[0] + p.away[1] * q.away[1]))));
  return turn / TURN + lookDistance(p.look, q.look) / LOOK + Math.abs(Math.log(p.halfWidth / q.halfWidth));
}

const tenth = (v: number): number => Math.round(v * 10) / 10;
