import type { PhotoFacts, Raster } from '../flow';

/** A photo opened: what is known of it, its upright sRGB pixels at working size, working pixels per full-size pixel. */
export interface DecodedPhoto {
  readonly facts: PhotoFacts;
  readonly raster: Raster;
  readonly scale: number;
}

export interface DecodeOptions {
  /** Longest side of the working image, pixels. */
  readonly maxSide?: number;
  readonly signal?: AbortSignal;
}
