import type { Point, Raster } from '../../flow';
import { pointAlong, polylineLength } from './polyline';

/** Points on either side that a row's middle is taken from: a trace wavers by a pixel, which enlarged looks like teeth. */
const AROUND = 2;

/** Middle of the line within `reach` of a place on it, less near its ends, so that it is no shorter. */
function meanAround(line: readonly Point[], total: number, along: number, reach: number): Point {
  const kept = Math.max(0, Math.min(reach, along, total - along));
  let [x, y] = [0, 0];
  for (let k = -AROUND; k <= AROUND; k++) {
    const p = pointAlong(line, along + (k / AROUND) * kept);
    x += p[0] / (2 * AROUND + 1);
    y += p[1] / (2 * AROUND + 1);
  }
  return [x, y];
}

export interface Strip {
  readonly width: number;
  readonly height: number;
  /** RGBA, row by row. */
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/**
 * A conductor laid out straight for the eye: `length` samples along, `across` over 1.4 times its width, nearest
 * pixel (no blending, so that nothing is shown that the photo does not have). Outside the picture is transparent.
 */
export function straighten(
  raster: Raster,
  centerline: readonly Point[],
  widthPx: number,
  length: number,
  across: number,
): Strip {
  const data = new Uint8ClampedArray(length * across * 4);
  const total = polylineLength(centerline);
  for (let i = 0; i < length; i++) {
    const along = (total * (i + 0.5)) / length;
    const [x, y] = meanAround(centerline, total, along, widthPx / 2);
    const before = pointAlong(centerline, Math.max(0, along - widthPx));
    const after = pointAlong(centerline, Math.min(total, along + widthPx));
    const d = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1;
    const nx = -(after[1] - before[1]) / d;
    const ny = (after[0] - before[0]) / d;
    for (let j = 0; j < across; j++) {
      const off = ((j + 0.5) / across - 0.5) * 1.4 * widthPx;
      const px = Math.floor(x + nx * off);
      const py = Math.floor(y + ny * off);
      if (px < 0 || py < 0 || px >= raster.width || py >= raster.height) continue;
      const from = (py * raster.width + px) * 4;
      data.set(raster.data.subarray(from, from + 4), (j * length + i) * 4);
    }
  }
  return { width: length, height: across, data };
}
