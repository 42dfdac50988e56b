import {
  alikeToTouch,
  doubtBorder,
  doubtElsewhere,
  type LightPosterior,
  nameInsulations,
  type RibbonReading,
} from '../color';
import type { Point, Raster, Ribbon } from '../flow';
import {
  fineRibbonNear,
  networkColorOf,
  noiseInLight,
  type RibbonQuality,
  readLinear,
  ribbonNear,
  type Traceable,
  type TracedConductor,
  traceTap,
} from '../vision';

/** Probability of bare metal that the segmenter gave; null where it reads none (one half is its "unknown"). */
export const networkBareOf = ({ conductor }: TracedConductor): number | null => {
  const { covering, coveringConfidence } = conductor;
  if (coveringConfidence === 0.5) return null;
  return covering === 'bare' ? coveringConfidence : 1 - coveringConfidence;
};

/** The pixels of the picture round a point: linear RGB, 3 values each, and whether each can be relied on. */
export function pixelsRound(raster: Raster, at: Point, radius: number): { rgb: Float32Array; usable: Uint8Array } {
  const rgb: number[] = [];
  const usable: number[] = [];
  const one = new Float32Array(3);
  const reach = Math.ceil(radius);
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) {
      const [x, y] = [at[0] + dx, at[1] + dy];
      // Within half a pixel of the border there is nothing to read between.
      const inside = x >= 0.5 && y >= 0.5 && x < raster.width - 0.5 && y < raster.height - 0.5;
      if (!inside || Math.hypot(dx, dy) > radius) continue;
      usable.push(readLinear(raster, x, y, one, 0));
      rgb.push(...one);
    }
  return { rgb: Float32Array.from(rgb), usable: Uint8Array.from(usable) };
}

/** How far from its middle a touch is looked at, pixels: the rims of a conductor are shaded. */
const reachOf = (widthPx: number): number => Math.max(1.5, 0.22 * widthPx);

/** What lies under a finger on a conductor: the middle of it, clipped or not. */
export const underFinger = (raster: Raster, at: Point, widthPx: number): Float32Array =>
  pixelsRound(raster, at, reachOf(widthPx)).rgb;

/** The pixels round a point as a conductor of this width, one below the other: to be named by themselves. */
export function patchAt(raster: Raster, at: Point, radius: number, widthPx: number, quality: RibbonQuality): Ribbon {
  const { rgb, usable } = pixelsRound(raster, at, radius);
  const { blurPx } = quality;
  return { length: usable.length, across: 1, stepPx: 1, widthPx, rgb, usable, noise: noiseInLight(quality), blurPx };
}

/** How far from the middle of the touch the border is looked for: widths of the conductor, and pixels. Assumed. */
const INEXACT = { widths: 0.25, least: 1.5, most: 3 };

const AROUND = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/**
 * A reading under a finger, less sure where the trace shows another color than the very pixels that were touched, and where
 * the finger lies on a border. A finger is not exact: beside it, as far as it is inexact, the same is read; where it is
 * not, which of the two was meant is open. Costs nothing in the middle of one color.
 */
export function asTouched(
  traceable: Traceable,
  at: Point,
  { conductor }: TracedConductor,
  reading: RibbonReading,
  quality: RibbonQuality,
  light: LightPosterior,
): RibbonReading {
  const { raster } = traceable;
  const { widthPx } = conductor;
  const off = Math.min(INEXACT.most, Math.max(INEXACT.least, INEXACT.widths * widthPx));
  const patch = patchAt(raster, at, reachOf(widthPx), widthPx, quality);
  const beside = AROUND.map(([x, y]): RibbonReading => {
    const near: Point = [at[0] + off * x, at[1] + off * y];
    if (alikeToTouch(patch.rgb, underFinger(raster, near, widthPx))) return reading;
    const traced = traceTap(traceable, near);
    if (!traced) return reading;
    const { readings } = nameInsulations([ribbonNear(traceable, traced, near, quality)], light, {
      networkColor: [networkColorOf(traceable, traced)],
      networkBare: [networkBareOf(traced)],
      touched: [underFinger(raster, near, traced.conductor.widthPx)],
      fine: [fineRibbonNear(traceable, traced, near, quality)],
      fingers: [near],
    });
    return readings[0] ?? reading;
  });
  return doubtElsewhere(doubtBorder(reading, beside), patch, light);
}
