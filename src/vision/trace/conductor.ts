import type { Conductor, ConductorOrigin } from '../../flow';
import { endKind } from './ends';
import { type Field, indexAt, inField } from './field';
import type { TracePoint } from './follow';
import type { Trace } from './instances';
import { outlines } from './outline';
import { presenceOf } from './presence';

/** A conductor and the trace it came from; the trace is needed again to read its ribbon. */
export interface TracedConductor {
  readonly conductor: Conductor;
  readonly trace: Trace;
}

/** Makes the public value of a trace. Crossings are filled in when all conductors are known (`withCrossings`). */
export function toConductor(field: Field, trace: Trace, origin: ConductorOrigin): TracedConductor {
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
    crossings: [],
  };
  return { conductor, trace };
}

/** Same trace, same id: made of where it begins, ends and passes its middle. */
function stableId(trace: Trace): string {
  const marks = [0, 0.5, 1].map((t) => trace.points[Math.round(t * (trace.points.length - 1))]!.at);
  return `c${marks.flatMap((m) => [Math.round(m[0]).toString(36), Math.round(m[1]).toString(36)]).join('-')}`;
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
