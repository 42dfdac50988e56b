import type { Level } from './level';

/** What the best stroke through each pixel says, at the level's size. */
export interface StrokeField {
  /** Quality of the best stroke, 0 where none. */
  readonly score: Float32Array;
  /** Direction along the conductor as (cos 2t, sin 2t), interleaved. */
  readonly direction: Float32Array;
  /** Full width in level pixels. */
  readonly width: Float32Array;
}

const NARROWEST = 2.5;
const WIDEST = 12;
/** Two edges belong to one conductor when their normals differ by less than about 25 degrees. */
const PARALLEL = 0.9;

/**
 * Pairs parallel edges that face each other across an even interior. From every edge pixel a ray goes along its
 * normal to both sides; the first edge with a parallel normal within the widest conductor ends the stroke. A
 * stroke whose inside differs from both outsides is kept and written along its pixels; the best one wins.
 */
export function findStrokes(level: Level): StrokeField {
  const { width, height, lab, strength, normal, edge } = level;
  const score = new Float32Array(width * height);
  const direction = new Float32Array(width * height * 2);
  const widths = new Float32Array(width * height);
  const inside = (x: number, y: number): boolean => x >= 1 && y >= 1 && x < width - 1 && y < height - 1;
  const distance = (i: number, j: number): number => {
    const dl = lab[i * 3]! - lab[j * 3]!;
    const da = 1.8 * (lab[i * 3 + 1]! - lab[j * 3 + 1]!);
    const db = 1.8 * (lab[i * 3 + 2]! - lab[j * 3 + 2]!);
    return Math.sqrt(dl * dl + da * da + db * db);
  };
  for (let y = 2; y < height - 2; y++)
    for (let x = 2; x < width - 2; x++) {
      const p = y * width + x;
      if (!edge[p]) continue;
      for (const side of [1, -1]) {
        const nx = normal[p * 2]! * side;
        const ny = normal[p * 2 + 1]! * side;
        const end = facingEdge(x, y, nx, ny);
        if (!end) continue;
        const [q, length] = end;
        const mid = Math.round(y + (ny * length) / 2) * width + Math.round(x + (nx * length) / 2);
        const reach = 1.5 + length * 0.15;
        const ox = Math.round(x - nx * reach);
        const oy = Math.round(y - ny * reach);
        const ex = Math.round(x + nx * (length + reach));
        const ey = Math.round(y + ny * (length + reach));
        if (!inside(ox, oy) || !inside(ex, ey)) continue;
        const contrast = Math.min(distance(mid, oy * width + ox), distance(mid, ey * width + ex));
        if (contrast < 10) continue;
        const evenness = Math.min(strength[p]!, strength[q]!) / (Math.max(strength[p]!, strength[q]!) + 1);
        const value = Math.min(60, contrast) * (0.5 + 0.5 * evenness);
        const cos2 = ny * ny - nx * nx;
        const sin2 = -2 * nx * ny;
        for (let t = 0; t <= length + 0.5; t += 0.7) {
          const i = Math.round(y + ny * t) * width + Math.round(x + nx * t);
          if (value <= score[i]!) continue;
          score[i] = value;
          direction[i * 2] = cos2;
          direction[i * 2 + 1] = sin2;
          widths[i] = length;
        }
      }
    }
  return { score, direction, width: widths };

  function facingEdge(x: number, y: number, nx: number, ny: number): [number, number] | undefined {
    for (let t = 1.5; t <= WIDEST; t += 0.75) {
      const qx = Math.round(x + nx * t);
      const qy = Math.round(y + ny * t);
      if (!inside(qx, qy)) return undefined;
      const q = qy * width + qx;
      if (!edge[q]) continue;
      const along = Math.abs(normal[q * 2]! * nx + normal[q * 2 + 1]! * ny);
      if (along < PARALLEL) {
        if (t > NARROWEST) return undefined;
        continue;
      }
      return t >= NARROWEST ? [q, t] : undefined;
    }
    return undefined;
  }
}
