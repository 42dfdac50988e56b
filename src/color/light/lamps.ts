import type { LogRatio } from './statistics';
import { convertXyz65ToLrgb } from './xyz';

/** CIE 1931 chromaticities (CIE 15:2004, CIE 015:2018; test/published/spectra.json, status read). */
export const LAMPS: Readonly<Record<string, readonly [x: number, y: number]>> = {
  A: [0.4476, 0.4074],
  D50: [0.3457, 0.3585],
  D65: [0.3127, 0.329],
  FL2: [0.3721, 0.3751],
  FL7: [0.3129, 0.3292],
  FL11: [0.3805, 0.3769],
  'LED-B1': [0.456, 0.4078],
  'LED-B3': [0.3756, 0.3723],
  'LED-B5': [0.3118, 0.3236],
  HP1: [0.533, 0.415],
  HP3: [0.4302, 0.4075],
};

/** (ln r/g, ln b/g) that a chromaticity has in linear sRGB when the camera does not correct it at all. */
export function castOf(xy: readonly [number, number]): LogRatio {
  const [x, y] = xy;
  const { r, g, b } = convertXyz65ToLrgb(x / y, 1, (1 - x - y) / y);
  const floor = 0.02;
  return [Math.log(Math.max(r, floor) / g), Math.log(Math.max(b, floor) / g)];
}
