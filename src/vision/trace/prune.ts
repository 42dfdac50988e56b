import { type Field, indexAt, inField } from './field';
import type { Trace } from './instances';

/** A trace is part of another when this share of it lies inside or hugs it. */
const INSIDE_SHARE = 0.5;
/** Highlight lines and doubled pieces: the middle lies within this many half-widths, and a pixel, and is narrower. */
const INSIDE = { reach: 1.05, margin: 1, narrower: 1.15 };
/** Rims lie a little outside and are much narrower; a thinner neighbor that touches is not. */
const RIM = { reach: 1.5, margin: 0, narrower: 3.5 };

/**
 * Drops traces that are only a rim, a highlight line or a doubled piece of a longer or wider one. Order of the
 * result: most important (longest for its width, surest) first.
 */
export function pruneTraces(field: Field, traces: readonly Trace[]): Trace[] {
  const worth = (t: Trace): number => t.lengthPx * Math.sqrt(t.halfWidth) * t.wire;
  const ordered = [...traces].sort((a, b) => worth(b) - worth(a));
  const inside = new Float32Array(field.width * field.height);
  const rim = new Float32Array(field.width * field.height);
  const kept: Trace[] = [];
  for (const trace of ordered) {
    const seen = trace.points.filter((p) => p.seen);
    const part = seen.filter((p) => {
      if (!inField(field, p.at[0], p.at[1])) return false;
      const i = indexAt(field, p.at[0], p.at[1]);
      return inside[i]! > p.halfWidth * INSIDE.narrower || rim[i]! > p.halfWidth * RIM.narrower;
    }).length;
    if (seen.length === 0 || part / seen.length > INSIDE_SHARE) continue;
    kept.push(trace);
    for (const p of seen) {
      stamp(field, inside, p.at[0], p.at[1], p.halfWidth, INSIDE);
      stamp(field, rim, p.at[0], p.at[1], p.halfWidth, RIM);
    }
  }
  return kept;
}

function stamp(field: Field, cover: Float32Array, x: number, y: number, halfWidth: number, zone: typeof RIM): void {
  const r = halfWidth * zone.reach + zone.margin;
  for (let oy = -Math.ceil(r); oy <= r; oy++)
    for (let ox = -Math.ceil(r); ox <= r; ox++) {
      if (ox * ox + oy * oy > r * r || !inField(field, x + ox, y + oy)) continue;
      const i = indexAt(field, x + ox, y + oy);
      cover[i] = Math.max(cover[i]!, halfWidth);
    }
}
