import type { Raster } from '../flow';

/** What the pixels say about conductors, at working size. All planes are width x height, row by row. */
export interface Segmentation {
  readonly width: number;
  readonly height: number;
  /** Which segmenter, with its version. */
  readonly by: string;
  /** True when `wire` is a calibrated probability that knows what conductors look like; false for mere strips. */
  readonly learned: boolean;
  /** Probability that the pixel lies on a conductor (insulation, bare metal, tape), 0 to 1. */
  readonly wire: Float32Array;
  /** Probability of an edge between two touching conductors, 0 to 1. */
  readonly edge: Float32Array;
  /** Direction along the conductor as (cos 2t, sin 2t), interleaved; (0, 0) where unknown. */
  readonly direction: Float32Array;
  /** Half of the conductor's width in pixels; 0 where unknown. */
  readonly halfWidth: Float32Array;
  /** Probability that a conductor pixel is bare metal, 0 to 1; absent when the segmenter cannot tell. */
  readonly bare?: Float32Array;
  /**
   * Log-probabilities over COLOR_NAMES per pixel, interleaved, at half size (ceil(width/2) x ceil(height/2));
   * absent when the segmenter does not read colors.
   */
  readonly color?: Float32Array;
  /** What lies on conductors; absent when the segmenter cannot tell. */
  readonly marks?: Marks;
}

/** Scores of what lies on conductors, at the size that the segmenter looked at: a few conductors' worth of them are ever read. */
export interface Marks {
  readonly width: number;
  readonly height: number;
  /** Log-odds of tape, height x width. */
  readonly tape: Float32Array;
  /** Log-odds of a stripe, height/2 x width/2. */
  readonly stripe: Float32Array;
}

/** Finds where conductors are. The classical one works everywhere; the network replaces it where it can run. */
export interface Segmenter {
  readonly name: string;
  /** Rejects with Problem 'cancelled' when the signal fires, 'engine failed' when it cannot finish. */
  segment(raster: Raster, signal?: AbortSignal, onProgress?: (share: number) => void): Promise<Segmentation>;
  /**
   * A quick, coarse look for the live view: a quarter of a bare run at 512 px. Thin conductors are not seen.
   * Absent where the segmenter cannot be that quick.
   */
  readonly glance?: (raster: Raster) => Promise<Segmentation>;
  /** Gives back everything it holds; the segmenter can't be used afterwards. */
  dispose(): void;
}
