import type { Conductor, ConductorOrigin, Crossing, EndKind, Point } from '../../flow';
import { type Field, indexAt, inField } from './field';
import type { StopReason, TracePoint } from './follow';
import type { Trace } from './instances';
import { outlines } from './outline';
import { presenceOf } from './presence';

/** A conductor and the trace it came from; the trace is needed again to read its ribbon. */
export interface TracedConductor {
  readonly conductor: Conductor;
  readonly trace: Trace;
}

/** Makes the public value of a trace. `bare` is the mean probability of bare metal along it, where known. */
export function toConductor(field: Field, trace: Trace, origin: ConductorOrigin, link: number): TracedConductor {
  const bare = meanBare(field, trace.points);
  const conductor: Conductor = {
    id: stableId(trace),
    origin,
    covering: bare !== undefined && bare > 0.5 ? 'bare' : 'insulated',
    coveringConfidence: bare === undefined ? 0.5 : Math.max(bare, 1 - bare),
    presence: origin === 'found' ? presenceOf(field, trace) : 1,
    outlines: outlines(trace.points),
    centerline: trace.points.map((p) => [tenth(p.at[0]), tenth(p.at[1])] as const),
    widthPx: tenth(2 * trace.halfWidth),
    ends: [endKind(field, trace, 0), endKind(field, trace, 1)],
    crossings: crossingsOf(trace.points, link),
  };
  return { conductor, trace };
}

/** Same trace, same id: made of where it begins, ends and passes its middle. */
function stableId(trace: Trace): string {
  const marks = [0, 0.5, 1].map((t) => trace.points[Math.round(t * (trace.points.length - 1))]!.at);
  return `c${marks.flatMap((m) => [Math.round(m[0]).toString(36), Math.round(m[1]).toString(36)]).join('-')}`;
}

const END_OF_STOP: Readonly<Record<StopReason, EndKind>> = {
  border: 'leaves the picture',
  lost: 'unknown',
  changed: 'hidden',
  taken: 'hidden',
};

function endKind(field: Field, trace: Trace, which: 0 | 1): EndKind {
  const tip = trace.points[which === 0 ? 0 : trace.points.length - 1]!.at;
  const margin = trace.halfWidth * 2 + 3;
  if (tip[0] < margin || tip[1] < margin || tip[0] > field.width - margin || tip[1] > field.height - margin)
    return 'leaves the picture';
  return END_OF_STOP[trace.stops[which]];
}

/** Places where something lies across: the unseen stretches between seen ones. */
function crossingsOf(points: readonly TracePoint[], link: number): Crossing[] {
  const crossings: Crossing[] = [];
  let start = -1;
  points.forEach((p, k) => {
    if (!p.seen && start < 0) start = k;
    if (p.seen && start >= 0) {
      const middle = points[(start + k) >> 1]!.at;
      if (start > 0)
        crossings.push({
          at: [tenth(middle[0]), tenth(middle[1])],
          with: '',
          overProbability: 0.1,
          linkProbability: link,
        });
      start = -1;
    }
  });
  return crossings;
}

/** Names the other conductor of each crossing: the one whose center line passes nearest. */
export function nameCrossings(traced: readonly TracedConductor[]): TracedConductor[] {
  return traced.map((one) => ({
    ...one,
    conductor: {
      ...one.conductor,
      crossings: one.conductor.crossings.map((c) => ({ ...c, with: nearestOther(traced, one, c.at) })),
    },
  }));
}

function nearestOther(traced: readonly TracedConductor[], self: TracedConductor, at: Point): string {
  let best = '';
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const other of traced) {
    if (other === self) continue;
    for (const p of other.trace.points) {
      if (!p.seen) continue;
      const d = Math.hypot(p.at[0] - at[0], p.at[1] - at[1]) - p.halfWidth;
      if (d < bestDistance) {
        bestDistance = d;
        best = other.conductor.id;
      }
    }
  }
  return bestDistance < self.trace.halfWidth * 2 + 4 ? best : '';
}

function meanBare(field: Field, points: readonly TracePoint[]): number | undefined {
  const { bare } = field.planes;
  if (!bare) return undefined;
  let sum = 0;
  let count = 0;
  for (const p of points) {
    if (!p.seen || !inField(field, p.at[0], p.at[1])) continue;
    sum += bare[indexAt(field, p.at[0], p.at[1])]!;
    count++;
  }
  return count ? sum / count : undefined;
}

const tenth = (v: number): number => Math.round(v * 10) / 10;
