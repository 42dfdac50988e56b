import type { LightEstimate } from '../../flow';
import { type Cov2, logNormal2, logSum } from '../gaussian';
import { angleDeg, type LogRatio, rgbOfRatio } from './statistics';
import type { LightMode, LightPosterior } from './types';
import { chromaticityOf } from './xyz';

/** Mean and covariance of a mixture. */
export function momentsOf(modes: readonly LightMode[]): { mean: LogRatio; cov: Cov2 } {
  let u = 0;
  let v = 0;
  for (const m of modes) {
    u += m.weight * m.mean[0];
    v += m.weight * m.mean[1];
  }
  let uu = 0;
  let uv = 0;
  let vv = 0;
  for (const m of modes) {
    const du = m.mean[0] - u;
    const dv = m.mean[1] - v;
    uu += m.weight * (m.cov[0] + du * du);
    uv += m.weight * (m.cov[1] + du * dv);
    vv += m.weight * (m.cov[2] + dv * dv);
  }
  return { mean: [u, v], cov: [uu, uv, vv] };
}

/** One place of the light with its probability. */
export interface LightNode {
  readonly at: LogRatio;
  readonly logWeight: number;
}

const SIDE = 5;
const REACH = 2;

/**
 * Points and weights that stand for a mixture: a grid along the axes of its moments (or of `around`, where evidence
 * has already told where to look), weighted by its density.
 */
export function nodesOf(modes: readonly LightMode[], around: readonly LightMode[] = modes): LightNode[] {
  const { mean, cov } = momentsOf(around);
  const half = (cov[0] - cov[2]) / 2;
  const root = Math.hypot(half, cov[1]);
  const angle = 0.5 * Math.atan2(2 * cov[1], cov[0] - cov[2]);
  const middle = (cov[0] + cov[2]) / 2;
  const long = Math.sqrt(Math.max(1e-8, middle + root));
  const short = Math.sqrt(Math.max(1e-8, middle - root));
  const nodes: { at: LogRatio; logWeight: number }[] = [];
  for (let i = 0; i < SIDE; i++) {
    for (let j = 0; j < SIDE; j++) {
      const p = ((i / (SIDE - 1)) * 2 - 1) * REACH * long;
      const q = ((j / (SIDE - 1)) * 2 - 1) * REACH * short;
      const u = mean[0] + p * Math.cos(angle) - q * Math.sin(angle);
      const v = mean[1] + p * Math.sin(angle) + q * Math.cos(angle);
      const logs = modes.map((m) => Math.log(m.weight) + logNormal2(u - m.mean[0], v - m.mean[1], m.cov));
      nodes.push({ at: [u, v], logWeight: logSum(logs) });
    }
  }
  const total = logSum(nodes.map((n) => n.logWeight));
  return nodes.map((n) => ({ at: n.at, logWeight: n.logWeight - total }));
}

/** The posterior with its moments as a `LightEstimate`. */
export function summarize(
  modes: readonly LightMode[],
  facts: Pick<LightPosterior, 'basis' | 'anchor' | 'mixedLightDeg' | 'toldByConductors' | 'flash'>,
): LightPosterior {
  const { mean } = momentsOf(modes);
  const rgb = rgbOfRatio(mean);
  const errorDeg = nodesOf(modes).reduce((sum, n) => sum + Math.exp(n.logWeight) * angleDeg(n.at, mean), 0);
  return { mean: rgb, xy: chromaticityOf(rgb), errorDeg, modes, ...facts };
}

/** The single Gaussian that a plain `LightEstimate` stands for, where the posterior itself was not kept. */
export function posteriorOf(light: LightEstimate, anchor: number): LightPosterior {
  const perDegree = 0.037;
  const sd = Math.max(0.005, light.errorDeg * perDegree);
  const mode: LightMode = {
    weight: 1,
    mean: [Math.log(light.mean[0] / light.mean[1]), Math.log(light.mean[2] / light.mean[1])],
    cov: [sd * sd, -0.5 * sd * sd, sd * sd],
  };
  return { ...light, modes: [mode], anchor, mixedLightDeg: 0 };
}
