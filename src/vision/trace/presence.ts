import { type Field, indexAt, inField, lightAt } from './field';
import type { Trace } from './instances';

/**
 * How much brighter the middle of a trace is than its flanks, -1 to 1. A cylinder falls off toward its rims under
 * almost any light; a gap between two things, a rail or a printed bar is flat.
 */
export function roundness(field: Field, trace: Trace): number {
  let sum = 0;
  let count = 0;
  const { points } = trace;
  for (let k = 1; k < points.length - 1; k++) {
    const p = points[k]!;
    if (!p.seen) continue;
    const [ax, ay] = points[k - 1]!.at;
    const [bx, by] = points[k + 1]!.at;
    const size = Math.hypot(bx - ax, by - ay) || 1;
    const light = (across: number): number => {
      const x = p.at[0] - ((by - ay) / size) * across * p.halfWidth;
      const y = p.at[1] + ((bx - ax) / size) * across * p.halfWidth;
      return inField(field, x, y) ? lightAt(field, indexAt(field, x, y)) : Number.NaN;
    };
    const middle = (light(0) + light(0.25) + light(-0.25)) / 3;
    const flanks = (light(0.75) + light(-0.75) + light(0.6) + light(-0.6)) / 4;
    const difference = (middle - flanks) / (middle + flanks + 20);
    if (Number.isNaN(difference)) continue;
    sum += difference;
    count++;
  }
  return count ? sum / count : 0;
}

/**
 * How far the widths measured along a trace are from those that the segmenter gives there: median difference of
 * logarithms, 0 where they agree. A trace that strays over several things is measured too wide.
 */
export function widthDisagreement(field: Field, trace: Trace): number {
  const offs: number[] = [];
  for (const p of trace.points) {
    if (!p.seen || !inField(field, p.at[0], p.at[1])) continue;
    const given = field.planes.halfWidth[indexAt(field, p.at[0], p.at[1])]!;
    if (given > 0) offs.push(Math.abs(Math.log(p.halfWidth / given)));
  }
  return offs.sort((a, b) => a - b)[offs.length >> 1] ?? 0;
}

/** Share of a trace's steps that are seen: a row of marks is mostly gaps, a conductor mostly seen. */
export const seenShare = (trace: Trace): number => trace.points.filter((p) => p.seen).length / trace.points.length;

/**
 * Probability that a trace is a conductor; nothing is offered below 0.5. Where the segmentation has learned what
 * conductors look like its own mean probability decides (0.62 where half of the rest speaks against it: set on the labeled photographs), a
 * little more where the trace is long. Where it only sees
 * strips: long for its width, sure and seen along the way, rounded, not very wide. The weights are judgement, rounded
 * by hand, and checked on photographs.
 */
export function presenceOf(field: Field, trace: Trace): number {
  const lengthInWidths = trace.lengthPx / (2 * trace.halfWidth);
  const logit = field.planes.learned
    ? 6 * (trace.wire - 0.62) + 0.5 * Math.log(lengthInWidths / 4) + 1.5 * (seenShare(trace) - 0.7)
    : 0.6 +
      15 * roundness(field, trace) +
      Math.log(lengthInWidths / 8) +
      6 * (trace.wire - 0.62) +
      4 * (seenShare(trace) - 0.75) -
      0.6 * Math.log(trace.halfWidth / 6);
  return 1 / (1 + Math.exp(-logit));
}
