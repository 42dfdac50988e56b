import { type LightPosterior, nameInsulations } from '../color';
import { type ColorCandidate, nearestOnPolyline, type Point, type Raster } from '../flow';
import type { RibbonQuality, TracedConductor } from '../vision';
import { patchAt } from './touch';

/** The place that the user aims at, in both views of a frame, pixels. */
export interface Aim {
  readonly inWhole: Point;
  readonly inDetail: Point;
}

/**
 * What one frame says of the color at one place. It is no `InsulationColor` on purpose: nothing else takes it, so that
 * nothing can be kept or concluded from a frame that passed.
 */
export interface PassingColor {
  /** Names that cannot be ruled out, most probable first. */
  readonly names: readonly ColorCandidate[];
  /** Probability of bare metal. */
  readonly bare: number;
}

/** How far from the middle line of a conductor its color is looked at, as a share of its width: rims are shaded. */
const CORE = 0.22;
/** Pixels of the frame: fewer say nothing, more cost time. */
const RADIUS = { least: 1.5, most: 12 } as const;
/** An aim this far off the middle line, as a share of the width, is still at the conductor: the finger is in the way. */
const NEAR = 0.6;

/** The conductor aimed at; undefined when the aim lies on none that was found. */
export function conductorAt(found: readonly TracedConductor[], at: Point): TracedConductor | undefined {
  const off = ({ conductor: c }: TracedConductor): number =>
    (nearestOnPolyline(c.centerline, at)?.distance ?? Number.POSITIVE_INFINITY) / Math.max(1, c.widthPx);
  return found.filter((one) => off(one) <= NEAR).sort((x, y) => off(x) - off(y))[0];
}

/**
 * The color at a place of a frame, under the light of the whole frame. `widthPx` is that of the conductor in pixels of
 * `detail`. Null where nothing can be read.
 */
export function passingColor(
  detail: Raster,
  at: Point,
  widthPx: number,
  quality: RibbonQuality,
  light: LightPosterior,
): PassingColor | null {
  const radius = Math.min(RADIUS.most, Math.max(RADIUS.least, CORE * widthPx));
  const patch = patchAt(detail, at, radius, widthPx, quality);
  const [reading] = nameInsulations([patch], light).readings;
  if (!reading?.body) return null;
  const { candidates, set } = reading.insulation;
  const { covering, coveringConfidence } = reading;
  return {
    names: candidates.filter((c) => set.includes(c.name)),
    bare: covering === 'bare' ? coveringConfidence : 1 - coveringConfidence,
  };
}
