import type { Field } from './field';
import { indexAt, inField } from './field';
import type { Trace } from './instances';

/** A trace is part of another when this share of it lies inside or hugs it. */
const INSIDE_SHARE = 0.5;
/** Rims and highlight lines are found within this many half-widths of the conductor they belong to. */
const HUG = 1.45;

/**
 * Drops traces that are only a rim, a highlight line or a doubled piece of a longer or wider one. Order of the
 * result: most important (longest for its width, surest) first.
 */
export function pruneTraces(field: Field, traces: readonly Trace[]): Trace[] {
  const worth = (t: Trace): number => t.lengthPx * Math.sqrt(t.halfWidth) * t.wire;
  const ordered = [...traces].sort((a, b) => worth(b) - worth(a));
  const cover = new Float32Array(field.width * field.height);
  const kept: Trace[] = [];
  for (const trace of ordered) {
    const seen = trace.points.filter((p) => p.seen);
    const inside = seen.filter((p) => {
      if (!inField(field, p.at[0], p.at[1])) return false;
      // A conductor at least as wide as its cover crosses it; a narrower one that stays inside belongs to it.
      return cover[indexAt(field, p.at[0], p.at[1])]! > p.halfWidth * 1.15;
    }).length;
    if (seen.length === 0 || inside / seen.length > INSIDE_SHARE) continue;
    kept.push(trace);
    for (const p of seen) stamp(field, cover, p.at[0], p.at[1], p.halfWidth);
  }
  return kept;
}

function stamp(field: Field, cover: Float32Array, x: number, y: number, halfWidth: number): void {
  const r = halfWidth * HUG;
  for (let oy = -Math.ceil(r); oy <= r; oy++)
    for (let ox = -Math.ceil(r); ox <= r; ox++) {
      if (ox * ox + oy * oy > r * r || !inField(field, x + ox, y + oy)) continue;
      const i = indexAt(field, x + ox, y + oy);
      cover[i] = Math.max(cover[i]!, halfWidth);
    }
}
