import { estimateLight } from '../color';
import type { CaptureVerdict, PhotoFacts, Polygon, Raster } from '../flow';
import { captureVerdict, withConductorWidths, workingSize } from '../photo';
import { findConductors, makeTraceable, type Segmenter } from '../vision';
import { type Aim, conductorAt, type PassingColor, passingColor } from './passing-color';

/** What a frame of the live view shows. Nothing of it is kept: the frozen photo is read anew, and in full. */
export interface Glance {
  /** Size of the small copy that the outlines are drawn on, pixels. */
  readonly width: number;
  readonly height: number;
  /** Outlines of each conductor in sight; empty where the segmenter is too slow for it. */
  readonly conductors: readonly (readonly Polygon[])[];
  /** False where no outlines can be had here, which is not the same as nothing in sight. */
  readonly looked: boolean;
  /** As for a photo of this frame. */
  readonly capture: CaptureVerdict;
  /** Color of the conductor aimed at; null where none was found there. Absent when nothing was aimed at. */
  readonly aimed?: PassingColor | null;
}

/** Two views of one frame. */
export interface Frame {
  /** The whole frame, small. */
  readonly whole: Raster;
  /** Its middle at the size at which a photo of it would be read: blur and grain do not show in a small copy. */
  readonly detail: Raster;
  /** Size of the frame itself, pixels. */
  readonly width: number;
  readonly height: number;
  /** Absent: no color is asked for. */
  readonly aim?: Aim;
}

/** Every third pixel of every third row: the light needs no more, and takes as long as all the rest otherwise. */
const THIN = 3;

function thinned({ width, height, data }: Raster): Raster {
  const [columns, rows] = [Math.ceil(width / THIN), Math.ceil(height / THIN)];
  const out = new Uint8ClampedArray(columns * rows * 4);
  for (let y = 0, to = 0; y < rows; y++)
    for (let x = 0; x < columns; x++, to += 4)
      for (let c = 0; c < 4; c++) out[to + c] = data[(y * THIN * width + x * THIN) * 4 + c]!;
  return { width: columns, height: rows, data: out };
}

/**
 * A quick look at a camera frame: roughly where conductors are, and whether a photo of it could be read.
 * @throws Problem 'engine failed' of the segmenter
 */
export async function glanceAt(frame: Frame, segmenter: Segmenter): Promise<Glance> {
  const { whole, detail, width, height, aim } = frame;
  const facts: PhotoFacts = {
    name: '',
    format: 'camera',
    byteLength: 0,
    sha256: '',
    width,
    height,
    orientation: 1,
  };
  const light = estimateLight(thinned(whole));
  const capture = captureVerdict(whole, facts, light, detail);
  const planes = await segmenter.glance?.(whole);
  const traced = planes ? findConductors(makeTraceable(whole, planes)) : [];
  const found = traced.map((one) => one.conductor);
  const grow = workingSize(width, height).width / whole.width;
  const under = aim && conductorAt(traced, aim.inWhole);
  return {
    width: whole.width,
    height: whole.height,
    conductors: found.map((c) => c.outlines),
    looked: planes !== undefined,
    capture: withConductorWidths(
      capture,
      found.map((c) => c.widthPx * grow),
    ),
    ...(aim && {
      aimed: under ? passingColor(detail, aim.inDetail, under.conductor.widthPx * grow, capture.measures, light) : null,
    }),
  };
}
