import type { Message } from './message';

/** Container formats told apart by their first bytes, never by the file's extension. */
export type PhotoFormat = 'jpeg' | 'png' | 'webp' | 'avif' | 'gif' | 'heic' | 'bmp' | 'camera';

/** What is known of a photo without looking at its pixels. */
export interface PhotoFacts {
  /** File name as given, or a name made for a camera frame. Untrusted text. */
  readonly name: string;
  readonly format: PhotoFormat;
  readonly byteLength: number;
  /** Lower-case hex SHA-256 of the bytes. */
  readonly sha256: string;
  /** Full size in pixels after EXIF orientation. */
  readonly width: number;
  readonly height: number;
  /** EXIF orientation 1 to 8 as stored (the pixels handed on are already upright). */
  readonly orientation: number;
  /** Present when the file holds several frames; only the first is read. */
  readonly animated?: true;
  /** ISO 8601 time of capture, where EXIF says so. */
  readonly takenAt?: string;
  readonly camera?: string;
  readonly flashFired?: boolean;
  /** Seconds, where EXIF says so. */
  readonly exposureTime?: number;
  readonly iso?: number;
}

/** Upright, sRGB-encoded pixels at working size. `data` is RGBA, 8 bits a channel, row by row; alpha is 255. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

export type CaptureVerdictKind = 'good' | 'limited' | 'retake';

/** Is this photo fit for reading colors, and what should be done about it? */
export interface CaptureVerdict {
  readonly verdict: CaptureVerdictKind;
  /** What is wrong and what to do, worst first. Empty when `verdict` is good. */
  readonly reasons: readonly Message[];
  /** The measurements behind the verdict. */
  readonly measures: CaptureMeasures;
}

export interface CaptureMeasures {
  /** Standard deviation of edge spread in pixels; about 0.5 is sharp, above 2 is soft. */
  readonly blurPx: number;
  /** Share of pixels with any channel at 250 or above, 0 to 1. */
  readonly clippedShare: number;
  /** Median relative luminance of linear light, 0 to 1. */
  readonly medianLuminance: number;
  /** Relative luminance that the brightest thirtieth of the picture reaches, 0 to 1. */
  readonly litLuminance: number;
  /** Standard deviation of fine noise in sRGB levels (0 to 255). */
  readonly noiseLevel: number;
  /** Angle in degrees between the estimated light and neutral in linear sRGB. */
  readonly castDeg: number;
  /** Greatest angle between the grays of two parts of the picture, or the change told by the conductors, degrees. */
  readonly mixedLightDeg: number;
}

/**
 * The light on the scene as seen by the camera, in linear sRGB. A distribution, never a point:
 * `mean` is the color of a perfect white under it (scaled so that green is 1), `errorDeg` the expected
 * angular error of `mean` (degrees), `basis` what it rests on.
 */
export interface LightEstimate {
  readonly mean: readonly [r: number, g: number, b: number];
  /** CIE 1931 chromaticity of `mean`. */
  readonly xy: readonly [x: number, y: number];
  readonly errorDeg: number;
  readonly basis: 'scene statistics' | 'reference in the shot' | 'assumed neutral';
  /** The camera's own flash fired, as the file says. Absent where it did not or the file is silent. */
  readonly flash?: true;
}

/** A photo's pixels made ready for reading. */
export interface Scene {
  readonly facts: PhotoFacts;
  readonly raster: Raster;
  /** Working pixels per full-size pixel, 0 to 1. */
  readonly scale: number;
  readonly capture: CaptureVerdict;
  readonly light: LightEstimate;
}
