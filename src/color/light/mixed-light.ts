import type { Raster } from '../../flow';
import { LINEAR_OF_LEVEL as LINEAR, type Rgb } from '../spaces';
import { angleBetween } from './statistics';

type Sum = [r: number, g: number, b: number];

const GRID = 3;
/** Nearly neutral: within this angle of the picture's own gray, degrees. Painted surfaces fall outside. */
const NEUTRAL_DEG = 14;
const NEUTRAL_COS = Math.cos((NEUTRAL_DEG * Math.PI) / 180);
/** Pixels looked at per part, about: a mean of directions needs no more. */
const SAMPLES = 4000;
/** A part speaks when this share of it is nearly neutral and lit. */
const MIN_SHARE = 0.08;

/** Mean direction of the nearly neutral, neither dark nor clipped pixels of one part. */
function grayOf(raster: Raster, x0: number, y0: number, x1: number, y1: number, gray: Rgb): Sum | undefined {
  const sum: Sum = [0, 0, 0];
  const grayNorm = Math.sqrt(gray[0] ** 2 + gray[1] ** 2 + gray[2] ** 2);
  const stride = Math.max(1, Math.floor(Math.sqrt(((x1 - x0) * (y1 - y0)) / SAMPLES)));
  let seen = 0;
  let used = 0;
  for (let y = y0; y < y1; y += stride) {
    for (let x = x0; x < x1; x += stride) {
      const p = (y * raster.width + x) * 4;
      const [r, g, b] = [raster.data[p] as number, raster.data[p + 1] as number, raster.data[p + 2] as number];
      seen += 1;
      if (Math.max(r, g, b) >= 250 || Math.max(r, g, b) < 40) continue;
      const [lr, lg, lb] = [LINEAR[r] as number, LINEAR[g] as number, LINEAR[b] as number];
      const norm = Math.sqrt(lr * lr + lg * lg + lb * lb);
      if (lr * gray[0] + lg * gray[1] + lb * gray[2] < NEUTRAL_COS * norm * grayNorm) continue;
      sum[0] += lr / norm;
      sum[1] += lg / norm;
      sum[2] += lb / norm;
      used += 1;
    }
  }
  return used >= MIN_SHARE * seen ? sum : undefined;
}

/**
 * Greatest angle (degrees) between the grays of two parts of the picture on a 3 x 3 grid; 0 when fewer than two
 * parts show enough gray. A hint only: a warm wall beside cold steel looks the same as two lamps.
 */
export function mixedLightDeg(raster: Raster, light: Rgb): number {
  const parts: Sum[] = [];
  for (let row = 0; row < GRID; row++) {
    for (let column = 0; column < GRID; column++) {
      const edge = (i: number, size: number): number => Math.floor((i * size) / GRID);
      const gray = grayOf(
        raster,
        edge(column, raster.width),
        edge(row, raster.height),
        edge(column + 1, raster.width),
        edge(row + 1, raster.height),
        light,
      );
      if (gray) parts.push(gray);
    }
  }
  let worst = 0;
  for (const a of parts) for (const b of parts) worst = Math.max(worst, angleBetween(a, b));
  return worst;
}
