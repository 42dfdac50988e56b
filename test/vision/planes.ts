import type { Point, Raster } from '../../src/flow';
import type { Segmentation } from '../../src/vision';

/** A conductor as a network sees it that makes no mistake; a stretch of it at either end may be bare metal. */
export interface DrawnConductor {
  readonly path: readonly Point[];
  readonly halfWidth: number;
  /** Pixels of bare metal before the last point of `path`. */
  readonly bareTip?: number;
}

/** Planes of straight conductors, later ones on top, for tests of what is made of planes. */
export function planesOf(raster: Raster, conductors: readonly DrawnConductor[]): Segmentation {
  const { width, height } = raster;
  const pixels = width * height;
  const planes = {
    width,
    height,
    by: 'drawn',
    learned: true,
    wire: new Float32Array(pixels),
    edge: new Float32Array(pixels),
    direction: new Float32Array(pixels * 2),
    halfWidth: new Float32Array(pixels),
    bare: new Float32Array(pixels),
  };
  for (const { path, halfWidth, bareTip = 0 } of conductors)
    for (let k = 1; k < path.length; k++) {
      const [a, b] = [path[k - 1]!, path[k]!];
      const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
      const [dx, dy] = [(b[0] - a[0]) / size, (b[1] - a[1]) / size];
      for (let y = 0, i = 0; y < height; y++)
        for (let x = 0; x < width; x++, i++) {
          const along = (x + 0.5 - a[0]) * dx + (y + 0.5 - a[1]) * dy;
          const across = (y + 0.5 - a[1]) * dx - (x + 0.5 - a[0]) * dy;
          if (along < 0 || along > size || Math.abs(across) > halfWidth) continue;
          planes.wire[i] = 0.95;
          planes.direction[2 * i] = dx * dx - dy * dy;
          planes.direction[2 * i + 1] = 2 * dx * dy;
          planes.halfWidth[i] = halfWidth;
          planes.bare[i] = k === path.length - 1 && along > size - bareTip ? 0.95 : 0.05;
        }
    }
  return planes;
}
