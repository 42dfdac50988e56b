import type { Cov3 } from '../gaussian';
import type { LogRatio } from '../light/statistics';
import type { Body } from '../ribbon/body';
import { type Features, featuresOf, luminance } from '../spaces';

/** Features of a body with the light divided out and the scene's white as unit of luminance. */
export function featuresUnder(body: Body, light: LogRatio, anchor: number): Features {
  const scale = 1 / anchor;
  return featuresOf(
    (body.rgb[0] * scale) / Math.exp(light[0]),
    body.rgb[1] * scale,
    (body.rgb[2] * scale) / Math.exp(light[1]),
  );
}

/** What the palette's simulation does not hold of real photographs: flare, local casts, processing. Assumed. */
const MODEL = { chroma: 0.012, stops: 0.25 };
/** Independent samples: neighbors share their noise and their compression block, and the more the blurrier the photo. */
const MAX_INDEPENDENT = 8;
const SHARING = 6;
/** JPEG and quantization error of a color that is averaged over a conductor, in 8-bit levels. Assumed. */
const LEVELS = 1.5;

/** Noise at a linear level, from the noise at mid gray: shot noise over a floor. */
const noiseAt = (linear: number, noise: number): number => noise * Math.sqrt(Math.max(0.02, linear) / 0.2);

/** Noise of one sample as a share of the body's light. */
export const relativeNoise = (body: Body): number => {
  const y = luminance(...body.rgb);
  return noiseAt(y, body.noise) / Math.max(1e-4, y);
};

/** How far blur reaches into the conductor from both sides, as a share of its width above what does no harm; 0 and up. */
export const tooThin = (body: Body): number => Math.max(0, (3 * body.blurPx + 2) / Math.max(1, body.widthPx) - 0.25);

/** Slope of linear light against the 8-bit level, IEC 61966-2-1. */
const slope = (linear: number): number => {
  const v = linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
  return v <= 0.04045 ? 1 / (12.92 * 255) : (2.4 / 1.055 / 255) * ((v + 0.055) / 1.055) ** 1.4;
};

/**
 * Covariance of the features of a body: the floor that even a perfect photo has, and what noise, quantization,
 * unevenness, blur and clipping add. `quality` 0 leaves only the floor, 1 gives all.
 */
export const measurementCov = (body: Body, anchor: number, quality: number): Cov3 =>
  measurementOf(body, anchor)(quality);

/** The same for several qualities of one body: what is measured is worked out once. */
export function measurementOf(body: Body, anchor: number): (quality: number) => Cov3 {
  const scale = 1 / anchor;
  const at = body.rgb.map((v) => v * scale) as unknown as [number, number, number];
  const independent = Math.min(MAX_INDEPENDENT, Math.max(1, body.count / (SHARING * (1 + body.blurPx * body.blurPx))));
  const sum = [0, 0, 0, 0, 0, 0];
  for (let c = 0; c < 3; c++) {
    const noise = noiseAt(body.rgb[c]!, body.noise);
    const sd = scale * Math.hypot(noise / Math.sqrt(independent), LEVELS * slope(body.rgb[c]!));
    const up = [...at] as [number, number, number];
    const down = [...at] as [number, number, number];
    up[c]! += sd;
    down[c] = Math.max(0, down[c]! - sd);
    const p = featuresOf(...up);
    const q = featuresOf(...down);
    // How far the error of this channel moves each feature.
    const [s, t, y] = [(p[0] - q[0]) / 2, (p[1] - q[1]) / 2, (p[2] - q[2]) / 2];
    [s * s, s * t, s * y, t * t, t * y, y * y].forEach((v, k) => {
      sum[k]! += v;
    });
  }
  const [ss, st, sy, tt, ty, yy] = sum as [number, number, number, number, number, number];
  const thin = tooThin(body);
  const lost = 1 - body.usable;
  const stray = Math.max(0, 0.5 - body.agreement);
  const extra = (0.05 * thin) ** 2 + (0.06 * lost * lost) ** 2 + (0.1 * stray) ** 2;
  return (k) => [
    MODEL.chroma ** 2 + k * (ss + body.scatter[0] / independent + extra),
    k * (st + body.scatter[1] / independent),
    k * sy,
    MODEL.chroma ** 2 + k * (tt + body.scatter[2] / independent + extra),
    k * ty,
    MODEL.stops ** 2 + k * (yy + lost * lost + thin * thin * 0.25),
  ];
}
