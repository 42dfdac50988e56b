import type { EndKind, Point } from '../../flow';
import { type Field, indexAt, inField, type Look, lookAt, lookDistance } from './field';
import type { TracePoint } from './follow';
import type { Trace } from './instances';

/** Looks nearer than this are the same ground in other light; farther apart than the second, another thing. */
const SAME_GROUND = 14;
const OTHER_THING = 24;
/** Mean probability of bare metal over the tip, and at most over the body before it. */
const BARE_TIP = 0.6;
const BARE_BODY = 0.4;

/**
 * What becomes of a conductor at an end of its trace. Judged from what lies beyond the tip: another conductor
 * (hidden), the same ground as on both sides of it (it ends in the open: cut end), or something else (it enters a
 * part or goes behind it: terminal). 'unknown' where these disagree. Thresholds are judgement.
 */
export function endKind(field: Field, trace: Trace, which: 0 | 1): EndKind {
  const points = which === 0 ? trace.points : [...trace.points].reverse();
  const tip = points[0]!.at;
  const margin = trace.halfWidth * 2 + 3;
  if (tip[0] < margin || tip[1] < margin || tip[0] > field.width - margin || tip[1] > field.height - margin)
    return 'leaves the picture';
  const stop = trace.stops[which];
  if (stop === 'taken') return 'hidden';
  const out = outward(points, trace.halfWidth);
  if (!out) return 'unknown';
  const beyond = whatLiesBeyond(field, tip, out, trace.halfWidth);
  if (endsInMetal(field, points, trace.halfWidth)) return beyond === 'ground' ? 'cut end' : 'terminal';
  if (beyond === 'conductor') return 'hidden';
  if (beyond === 'ground') return stop === 'changed' ? 'unknown' : 'cut end';
  return beyond === 'part' ? 'terminal' : 'unknown';
}

/** Unit vector along which the trace would go on, over about two widths before the tip. */
function outward(points: readonly TracePoint[], halfWidth: number): Point | undefined {
  const [x, y] = points[0]!.at;
  const tail = points.find((p) => Math.hypot(p.at[0] - x, p.at[1] - y) >= 4 * halfWidth) ?? points.at(-1)!;
  const size = Math.hypot(x - tail.at[0], y - tail.at[1]);
  return size < 1 ? undefined : [(x - tail.at[0]) / size, (y - tail.at[1]) / size];
}

/** Does the insulation stop before the trace does? Only a segmenter that tells metal from insulation can say. */
function endsInMetal(field: Field, points: readonly TracePoint[], halfWidth: number): boolean {
  const { bare } = field.planes;
  if (!bare) return false;
  const [x, y] = points[0]!.at;
  const mean = (from: number, to: number): number => {
    let sum = 0;
    let count = 0;
    for (const p of points) {
      const d = Math.hypot(p.at[0] - x, p.at[1] - y);
      if (!p.seen || d < from || d >= to || !inField(field, p.at[0], p.at[1])) continue;
      sum += bare[indexAt(field, p.at[0], p.at[1])]!;
      count++;
    }
    return count ? sum / count : Number.NaN;
  };
  return mean(0, 2 * halfWidth + 2) > BARE_TIP && mean(4 * halfWidth, 12 * halfWidth) < BARE_BODY;
}

function whatLiesBeyond(
  field: Field,
  tip: Point,
  out: Point,
  halfWidth: number,
): 'conductor' | 'ground' | 'part' | 'unclear' {
  const at = (along: number, across: number): number | undefined => {
    const x = tip[0] + out[0] * along - out[1] * across;
    const y = tip[1] + out[1] * along + out[0] * across;
    return inField(field, x, y) ? indexAt(field, x, y) : undefined;
  };
  const patch = (along: readonly number[], across: readonly number[]): number[] =>
    along.flatMap((a) => across.map((b) => at(a, b))).filter((i) => i !== undefined);
  const r = halfWidth + 1.5;
  const ahead = patch([1.2 * r, 1.6 * r, 2 * r, 2.5 * r], [-0.4 * r, 0, 0.4 * r]);
  const left = patch([-2.5 * r, -1.8 * r, -1.1 * r], [1.6 * r, 2 * r]);
  const right = patch([-2.5 * r, -1.8 * r, -1.1 * r], [-1.6 * r, -2 * r]);
  if (ahead.length === 0 || left.length === 0 || right.length === 0) return 'unclear';
  const wire = ahead.map((i) => field.planes.wire[i]!).sort((a, b) => a - b);
  if (wire[wire.length >> 1]! >= field.seed) return 'conductor';
  const look = medianLook(field, ahead);
  const sides = [left, right].map((side) => lookDistance(look, medianLook(field, side)));
  if (Math.max(...sides) < SAME_GROUND) return 'ground';
  return Math.min(...sides) > OTHER_THING ? 'part' : 'unclear';
}

function medianLook(field: Field, pixels: readonly number[]): Look {
  const looks = pixels.map((i) => lookAt(field, i));
  const middle = (c: 0 | 1 | 2): number => looks.map((l) => l[c]).sort((a, b) => a - b)[looks.length >> 1]!;
  return [middle(0), middle(1), middle(2)];
}
