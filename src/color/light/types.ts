import type { LightEstimate } from '../../flow';

/** A Gaussian over the light's (ln r/g, ln b/g) in linear sRGB. Neutral light is (0, 0). */
export interface LightMode {
  readonly weight: number;
  readonly mean: readonly [number, number];
  /** uu, uv, vv. */
  readonly cov: readonly [number, number, number];
}

/**
 * All that is known of the light, for naming: a mixture of Gaussians whose moments are the `LightEstimate`'s.
 * Plain data; survives structured clone.
 */
export interface LightPosterior extends LightEstimate {
  readonly modes: readonly LightMode[];
  /** Luminance (linear, above 0) that a fully lit white would have in this photo; good to a stop or so, 1 is the brightest level. */
  readonly anchor: number;
  /** Greatest angle in degrees between the grays of two parts of the picture; once conductors tell, the change along them. */
  readonly mixedLightDeg: number;
  /**
   * Whether conductors told `mixedLightDeg`, or were too few to tell. Absent before they were asked; asked once, the answer
   * stays, so that all that is said of a photo's lamps agrees.
   */
  readonly toldByConductors?: boolean;
}
