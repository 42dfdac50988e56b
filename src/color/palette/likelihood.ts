import { type Cov3, logNormal3, logSum } from '../gaussian';
import type { Features } from '../spaces';
import { PALETTE_DATA } from './palette-data';
import type { Surface } from './types';

export const SURFACES = Object.keys(PALETTE_DATA) as readonly Surface[];

/** A reading that no model explains (painted over, colored light, wrong place): broad, the same for every name. */
const STRAY_SHARE = 0.02;
const STRAY: Cov3 = [0.03, 0, 0, 0.03, 0, 4];

/** ln p(features | surface) when the features are known with a Gaussian error. */
export function logLikelihood(surface: Surface, at: Features, error: Cov3): number {
  const parts = PALETTE_DATA[surface].parts;
  const logs = new Float64Array(parts.length + 1);
  parts.forEach((p, i) => {
    const cov: Cov3 = [
      p[4] + error[0],
      p[5] + error[1],
      p[6] + error[2],
      p[7] + error[3],
      p[8] + error[4],
      p[9] + error[5],
    ];
    logs[i] = Math.log(p[0] * (1 - STRAY_SHARE)) + logNormal3(at[0] - p[1], at[1] - p[2], at[2] - p[3], cov);
  });
  logs[parts.length] = Math.log(STRAY_SHARE) + logNormal3(at[0], at[1], at[2] + 3, STRAY);
  return logSum(logs);
}
