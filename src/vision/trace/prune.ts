import type { Point } from '../../flow';
import { type Field, forDiskRows, indexAt, inField, zeroPlane } from './field';
import type { Trace } from './instances';
import { presenceOf, seenShare, widthDisagreement } from './presence';

/** A trace is part of another when this share of it lies inside or hugs it. */
const INSIDE_SHARE = 0.5;
/** Rims and highlight lines lie within this many half-widths of the middle of their conductor, and are narrower. */
const REACH = 1.45;
const NARROWER = 1.15;
/** Shorter than this many widths, and half on others that are not much narrower: a shard of them, left at a crossing. */
const SHARD = { widths: 3, narrower: 0.7 };

/**
 * Drops traces that are only a rim, a highlight line or a doubled piece of a longer or wider one. Order of the
 * result: most important (longest for its width, surest) first.
 */
export function pruneTraces(field: Field, traces: readonly Trace[]): Trace[] {
  // Presence squared: a wide flat gap between two conductors must not swallow them.
  const worth = new Map(traces.map((t) => [t, worthOf(field, t)] as const));
  const ordered = [...traces].sort((a, b) => worth.get(b)! - worth.get(a)!);
  const cover = zeroPlane(field);
  const kept: Trace[] = [];
  for (const trace of ordered) {
    const seen = trace.points.filter((p) => p.seen);
    const inside = (widths: number): number =>
      seen.filter((p) => {
        if (!inField(field, p.at[0], p.at[1])) return false;
        return cover[indexAt(field, p.at[0], p.at[1])]! > p.halfWidth * widths;
      }).length / seen.length;
    if (seen.length === 0 || inside(NARROWER) > INSIDE_SHARE) continue;
    const short = field.planes.learned && trace.lengthPx < SHARD.widths * 2 * trace.halfWidth;
    if (short && inside(SHARD.narrower) > INSIDE_SHARE) continue;
    kept.push(trace);
    for (const p of seen) stamp(field, cover, p.at, p.halfWidth);
  }
  return kept;
}

function worthOf(field: Field, trace: Trace): number {
  const worth = trace.lengthPx * trace.halfWidth ** 0.25 * trace.wire * presenceOf(field, trace) ** 2;
  if (!field.planes.learned) return worth;
  // A long trace over gaps and several bodies must not swallow the true one of the right width.
  return worth * seenShare(trace) * Math.exp(-3 * widthDisagreement(field, trace));
}

function stamp(field: Field, cover: Float32Array, at: Point, halfWidth: number): void {
  forDiskRows(field, at, halfWidth * REACH, (from, to) => {
    for (let i = from; i < to; i++) if (cover[i]! < halfWidth) cover[i] = halfWidth;
  });
}
