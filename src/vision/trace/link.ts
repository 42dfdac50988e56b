import type { Point } from '../../flow';
import { lookDistance } from './field';
import type { TracePoint } from './follow';
import { gap, summarize, type Trace } from './instances';

/** A free end of a trace: where, and which way it points outward. */
interface End {
  readonly trace: number;
  readonly first: boolean;
  readonly at: Point;
  readonly out: Point;
}

/** Two ends that may be one conductor passing under something. Lower cost is likelier. */
interface Link {
  readonly a: End;
  readonly b: End;
  readonly cost: number;
}

const MOST_TURN = (40 * Math.PI) / 180;
const MOST_COST = 1.6;

/**
 * Joins traces that were broken by something lying across: ends that face each other, look alike, are as wide, and
 * need little bending and a short jump. Cheapest first, each end once. Returns the joined traces and, for each, the
 * probability of its weakest join (1 where nothing was joined).
 */
export function linkTraces(traces: readonly Trace[]): { trace: Trace; linkProbability: number }[] {
  const ends = traces.flatMap((t, k) => [endOf(t, k, true), endOf(t, k, false)]).filter((e) => e !== undefined);
  const links: Link[] = [];
  for (let i = 0; i < ends.length; i++)
    for (let j = i + 1; j < ends.length; j++) {
      const link = consider(traces, ends[i]!, ends[j]!);
      if (link) links.push(link);
    }
  links.sort((p, q) => p.cost - q.cost);
  const used = new Set<End>();
  const chain = new Map<End, Link>();
  const group = traces.map((_, k) => k);
  const root = (k: number): number => (group[k] === k ? k : root(group[k]!));
  for (const link of links) {
    if (used.has(link.a) || used.has(link.b)) continue;
    const [ra, rb] = [root(link.a.trace), root(link.b.trace)];
    if (ra === rb) continue;
    used.add(link.a).add(link.b);
    chain.set(link.a, link).set(link.b, link);
    group[ra] = rb;
  }
  return assemble(traces, ends, chain);
}

function endOf(trace: Trace, k: number, first: boolean): End | undefined {
  const stop = trace.stops[first ? 0 : 1];
  if (stop === 'border') return undefined;
  const points = trace.points;
  const at = (n: number): Point =>
    points[first ? Math.min(n, points.length - 1) : Math.max(0, points.length - 1 - n)]!.at;
  // The last steps before a stop wander; the direction is taken over about two widths.
  const back = Math.max(3, Math.round((trace.halfWidth * 4) / Math.max(1.5, Math.min(6, trace.halfWidth * 0.6))));
  const tip = at(0);
  const tail = at(back);
  const size = gap(tip, tail);
  if (size < 1) return undefined;
  return { trace: k, first, at: tip, out: [(tip[0] - tail[0]) / size, (tip[1] - tail[1]) / size] };
}

function consider(traces: readonly Trace[], a: End, b: End): Link | undefined {
  if (a.trace === b.trace) return undefined;
  const [ta, tb] = [traces[a.trace]!, traces[b.trace]!];
  const width = ta.halfWidth + tb.halfWidth;
  const distance = gap(a.at, b.at);
  if (distance > width * 6 + 10) return undefined;
  const ratio = ta.halfWidth / tb.halfWidth;
  if (ratio > 1.7 || ratio < 1 / 1.7) return undefined;
  const look = lookDistance(ta.look, tb.look);
  if (look > 26) return undefined;
  const facing = -(a.out[0] * b.out[0] + a.out[1] * b.out[1]);
  let bend = Math.acos(Math.max(-1, Math.min(1, facing)));
  if (distance > width * 0.8) {
    const cx = (b.at[0] - a.at[0]) / distance;
    const cy = (b.at[1] - a.at[1]) / distance;
    const turnA = Math.acos(Math.max(-1, Math.min(1, a.out[0] * cx + a.out[1] * cy)));
    const turnB = Math.acos(Math.max(-1, Math.min(1, -(b.out[0] * cx + b.out[1] * cy))));
    bend = Math.max(turnA, turnB);
  }
  if (bend > MOST_TURN) return undefined;
  const cost = bend / MOST_TURN + look / 26 + (0.6 * distance) / (width * 6 + 10) + Math.abs(Math.log(ratio));
  return cost > MOST_COST ? undefined : { a, b, cost };
}

function assemble(traces: readonly Trace[], ends: readonly End[], chain: ReadonlyMap<End, Link>) {
  const endAt = (trace: number, first: boolean): End | undefined =>
    ends.find((e) => e.trace === trace && e.first === first);
  const done = new Set<number>();
  const result: { trace: Trace; linkProbability: number }[] = [];
  for (let k = 0; k < traces.length; k++) {
    if (done.has(k)) continue;
    // Go to one end of the chain, then walk it.
    let current = k;
    let entry = true;
    for (let link = linkOf(current, entry); link && link.next !== k; link = linkOf(current, entry)) {
      current = link.next;
      entry = !link.nextFirst;
    }
    const points: TracePoint[] = [];
    let weakest = 1;
    let start = entry;
    let stopFirst = traces[current]!.stops[start ? 0 : 1];
    let stopLast = stopFirst;
    for (let walking = true; walking; ) {
      done.add(current);
      const piece = traces[current]!;
      const run = start ? piece.points : [...piece.points].reverse();
      if (points.length > 0) points.push(...bridge(points.at(-1)!, run[0]!));
      points.push(...run);
      stopLast = piece.stops[start ? 1 : 0];
      const link = linkOf(current, !start);
      walking = link !== undefined && !done.has(link.next);
      if (link && walking) {
        weakest = Math.min(weakest, 1 - link.cost / (2 * MOST_COST));
        current = link.next;
        start = link.nextFirst;
      }
    }
    stopFirst ??= 'lost';
    result.push({ trace: summarize(points, [stopFirst, stopLast], traces[k]!.look), linkProbability: weakest });
  }
  return result;

  function linkOf(trace: number, first: boolean): { next: number; nextFirst: boolean; cost: number } | undefined {
    const end = endAt(trace, first);
    const link = end && chain.get(end);
    if (!link) return undefined;
    const other = link.a === end ? link.b : link.a;
    return { next: other.trace, nextFirst: other.first, cost: link.cost };
  }
}

/** Unseen steps over the jump between two ends. */
function bridge(from: TracePoint, to: TracePoint): TracePoint[] {
  const steps = Math.floor(gap(from.at, to.at) / 3);
  return Array.from({ length: steps }, (_, n) => {
    const t = (n + 1) / (steps + 1);
    return {
      at: [from.at[0] * (1 - t) + to.at[0] * t, from.at[1] * (1 - t) + to.at[1] * t] as const,
      halfWidth: from.halfWidth * (1 - t) + to.halfWidth * t,
      seen: false,
      wire: 0,
    };
  });
}
