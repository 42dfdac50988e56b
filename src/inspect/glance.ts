import { estimateLight } from '../color';
import type { CaptureVerdict, PhotoFacts, Polygon, Raster } from '../flow';
import { captureVerdict, withConductorWidths, workingSize } from '../photo';
import { findConductors, makeTraceable, type Segmenter } from '../vision';

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
}

/**
 * A quick look at a camera frame: roughly where conductors are, and whether a photo of it could be read.
 * @throws Problem 'engine failed' of the segmenter
 */
export async function glanceAt(frame: Frame, segmenter: Segmenter): Promise<Glance> {
  const { whole, detail, width, height } = frame;
  const facts: PhotoFacts = {
    name: '',
    format: 'camera',
    byteLength: 0,
    sha256: '',
    width,
    height,
    orientation: 1,
  };
  const capture = captureVerdict(whole, facts, estimateLight(whole), detail);
  const planes = await segmenter.glance?.(whole);
  const found = planes ? findConductors(makeTraceable(whole, planes)).map((one) => one.conductor) : [];
  const grow = workingSize(width, height).width / whole.width;
  return {
    width: whole.width,
    height: whole.height,
    conductors: found.map((c) => c.outlines),
    looked: planes !== undefined,
    capture: withConductorWidths(
      capture,
      found.map((c) => c.widthPx * grow),
    ),
  };
}
