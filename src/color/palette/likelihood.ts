import type { Cov3 } from '../gaussian';
import { PALETTE_DATA } from './palette-data';
import type { Surface } from './types';

export const SURFACES = Object.keys(PALETTE_DATA) as readonly Surface[];

/** A reading that no model explains (painted over, colored light, wrong place): broad, the same for every name. */
const STRAY = { share: 0.02, mean: [0, 0, -3], cov: [0.03, 0, 0, 0.03, 0, 4] } as const;

/** Squared Mahalanobis distance beyond which a part is passed over. */
const NEGLIGIBLE = 60;

/** Per part: ln weight and norm, mean (3), inverse covariance (6). */
const STRIDE = 10;

/** The palette blurred by a reading's error, ready to be evaluated at many places. */
export interface BlurredPalette {
  readonly parts: Float64Array;
  /** First part of each surface, and the total last. */
  readonly starts: readonly number[];
}

/** The parts of each surface before any error, the stray reading last: weight, mean (3), covariance (6). */
const PARTS = SURFACES.map((surface) => [
  ...PALETTE_DATA[surface].parts.map((p) => [p[0] * (1 - STRAY.share), ...p.slice(1)]),
  [STRAY.share, ...STRAY.mean, ...STRAY.cov],
]);
const RAW = Float64Array.from(PARTS.flat(2));
const STARTS = [0];
for (const parts of PARTS) STARTS.push(STARTS[STARTS.length - 1]! + parts.length);

/** Adds a Gaussian error to every part of the palette. */
export function blurPalette(error: Cov3): BlurredPalette {
  const [exx, exy, exz, eyy, eyz, ezz] = error;
  const parts = new Float64Array(RAW.length);
  for (let at = 0; at < RAW.length; at += STRIDE) {
    const xx = RAW[at + 4]! + exx;
    const xy = RAW[at + 5]! + exy;
    const xz = RAW[at + 6]! + exz;
    const yy = RAW[at + 7]! + eyy;
    const yz = RAW[at + 8]! + eyz;
    const zz = RAW[at + 9]! + ezz;
    const a = yy * zz - yz * yz;
    const b = xz * yz - xy * zz;
    const d = xy * yz - xz * yy;
    const det = xx * a + xy * b + xz * d;
    parts[at] = Math.log(RAW[at]!) - 0.5 * (Math.log(det) + 3 * Math.log(2 * Math.PI));
    parts[at + 1] = RAW[at + 1]!;
    parts[at + 2] = RAW[at + 2]!;
    parts[at + 3] = RAW[at + 3]!;
    parts[at + 4] = a / det;
    parts[at + 5] = b / det;
    parts[at + 6] = d / det;
    parts[at + 7] = (xx * zz - xz * xz) / det;
    parts[at + 8] = (xy * xz - xx * yz) / det;
    parts[at + 9] = (xx * yy - xy * xy) / det;
  }
  return { parts, starts: STARTS };
}

/**
 * p(features | surface) for every surface at each of several exposures (log2, taken off the third feature), written
 * to `out` exposure by exposure: out[e * SURFACES.length + surface].
 */
export function likelihoods(
  palette: BlurredPalette,
  s: number,
  t: number,
  y: number,
  exposures: readonly number[],
  out: Float64Array,
): void {
  const { parts, starts } = palette;
  const n = SURFACES.length;
  out.fill(0);
  for (let surface = 0; surface < n; surface++) {
    for (let part = starts[surface]!; part < starts[surface + 1]!; part++) {
      const k = part * STRIDE;
      const ds = s - parts[k + 1]!;
      const dt = t - parts[k + 2]!;
      const flat = ds * (ds * parts[k + 4]! + 2 * dt * parts[k + 5]!) + dt * dt * parts[k + 7]!;
      const lean = ds * parts[k + 6]! + dt * parts[k + 8]!;
      const steep = parts[k + 9]!;
      // Nothing to add at any exposure: less than e^-30 of a part's peak.
      if (flat - (lean * lean) / steep > NEGLIGIBLE) continue;
      const peak = parts[k]!;
      const middle = parts[k + 3]!;
      for (let e = 0, at = surface; e < exposures.length; e++, at += n) {
        const dy = y - exposures[e]! - middle;
        const q = flat + dy * (2 * lean + dy * steep);
        out[at]! += Math.exp(peak - 0.5 * q);
      }
    }
  }
}
