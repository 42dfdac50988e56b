import type { Point, Raster } from '../../src/flow';

type Rgb = readonly [number, number, number];

/** A picture of one color. */
export function blank(width: number, height: number, color: Rgb): Raster {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let i = 0; i < width * height; i++) data.set([...color, 255], i * 4);
  return { width, height, data };
}

/**
 * Lays a round conductor along a path: brighter in the middle than at the rims, as a cylinder under a lamp from
 * above. Later conductors lie on top.
 */
export function lay(raster: Raster, path: readonly Point[], halfWidth: number, color: Rgb): void {
  for (let y = 0; y < raster.height; y++)
    for (let x = 0; x < raster.width; x++) {
      const d = distanceTo(path, x + 0.5, y + 0.5) / halfWidth;
      if (d > 1) continue;
      const shade = 0.45 + 0.55 * Math.sqrt(1 - d * d);
      const i = (y * raster.width + x) * 4;
      for (let c = 0; c < 3; c++) raster.data[i + c] = color[c]! * shade;
    }
}

/** A seeded grain of up to +-`levels` on every channel. */
export function grain(raster: Raster, levels: number, seed = 1): void {
  let state = seed;
  for (let i = 0; i < raster.data.length; i++) {
    if (i % 4 === 3) continue;
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    raster.data[i] = raster.data[i]! + (state / 2 ** 32 - 0.5) * 2 * levels;
  }
}

function distanceTo(path: readonly Point[], x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 1; k < path.length; k++) {
    const [ax, ay] = path[k - 1]!;
    const [bx, by] = path[k]!;
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    best = Math.min(best, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return best;
}

/** Points of an arc, for paths that bend. */
export const arc = (cx: number, cy: number, r: number, from: number, to: number, steps = 40): Point[] =>
  Array.from({ length: steps + 1 }, (_, k) => {
    const a = from + ((to - from) * k) / steps;
    return [cx + r * Math.cos(a), cy + r * Math.sin(a)];
  });
