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
export function measurementCov(body: Body, anchor: number, quality: number): Cov3 {
  const jacobian: Features[] = [];
  const scale = 1 / anchor;
  const at = body.rgb.map((v) => v * scale) as unknown as [number, number, number];
  const independent = Math.min(MAX_INDEPENDENT, Math.max(1, body.count / (SHARING * (1 + body.blurPx * body.blurPx))));
  for (let c = 0; c < 3; c++) {
    const noise = noiseAt(body.rgb[c]!, body.noise);
    const sd = scale * Math.hypot(noise / Math.sqrt(independent), LEVELS * slope(body.rgb[c]!));
    const up = [...at] as [number, number, number];
    const down = [...at] as [number, number, number];
    up[c]! += sd;
    down[c] = Math.max(0, down[c]! - sd);
    const p = featuresOf(...up);
    const q = featuresOf(...down);
    jacobian.push([(p[0] - q[0]) / 2, (p[1] - q[1]) / 2, (p[2] - q[2]) / 2]);
  }
  const sum = (i: 0 | 1 | 2, j: 0 | 1 | 2): number => jacobian.reduce((total, d) => total + d[i] * d[j], 0);
  const thin = tooThin(body);
  const lost = 1 - body.usable;
  const stray = Math.max(0, 0.5 - body.agreement);
  const extra = (0.05 * thin) ** 2 + (0.06 * lost * lost) ** 2 + (0.1 * stray) ** 2;
  const k = quality;
  return [
    MODEL.chroma ** 2 + k * (sum(0, 0) + body.scatter[0] / independent + extra),
    k * (sum(0, 1) + body.scatter[1] / independent),
    k * sum(0, 2),
    MODEL.chroma ** 2 + k * (sum(1, 1) + body.scatter[2] / independent + extra),
    k * sum(1, 2),
    MODEL.stops ** 2 + k * (sum(2, 2) + lost * lost + thin * thin * 0.25),
  ];
}
