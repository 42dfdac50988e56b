import type { ColorName } from '../../flow';
import { logSum } from '../gaussian';
import { nodesOf } from '../light/posterior';
import type { LightMode } from '../light/types';
import { logLikelihood, SURFACES } from '../palette/likelihood';
import { PALETTE_DATA } from '../palette/palette-data';
import type { Body } from '../ribbon/body';
import { featuresUnder, measurementCov } from './measurement';

/** Evidence about one body besides its color: ln factors per surface (from gloss, from a network). */
export type Evidence = Float64Array;

/** A reference of known color: its body and the surface it certainly is. */
export interface KnownBody {
  readonly body: Body;
  readonly name: ColorName;
}

export interface JointInput {
  readonly bodies: readonly Body[];
  readonly evidence: readonly Evidence[];
  readonly known: readonly KnownBody[];
  readonly modes: readonly LightMode[];
  readonly anchor: number;
}

export interface JointResult {
  /** Per body, per quality step, ln probability over SURFACES. The last step is the real quality. */
  readonly ladders: readonly Float64Array[][];
  /** The light after all bodies were heard, as nodes' moments. */
  readonly light: LightMode;
}

/** Quality steps from a perfect photo of this color to the real one. */
export const QUALITY_STEPS = [0, 0.4, 1] as const;

/**
 * Bodies are independent only as far as the model is right; unmodeled errors they share (processing, mixed light)
 * would be counted once per body. Each body speaks of the light with half its weight. Assumed.
 */
const SHARED = 0.5;

/**
 * Names and light together, exactly on a grid of lights: every body's likelihood under every light; lights weighed by
 * how well they explain all bodies; names averaged over lights.
 */
export function inferJointly(input: JointInput): JointResult {
  const nodes = nodesOf(input.modes);
  const priors = SURFACES.map((surface) => Math.log(PALETTE_DATA[surface].prior));
  const logLight = Float64Array.from(nodes, (n) => n.logWeight);

  for (const { body, name } of input.known) {
    const cov = measurementCov(body, input.anchor, 1);
    nodes.forEach((node, k) => {
      logLight[k]! += logLikelihood(name, featuresUnder(body, node.at, input.anchor), cov);
    });
  }

  const scores = input.bodies.map((body, i) =>
    QUALITY_STEPS.map((quality) => {
      const cov = measurementCov(body, input.anchor, quality);
      return nodes.map((node) => {
        const at = featuresUnder(body, node.at, input.anchor);
        return Float64Array.from(
          SURFACES,
          (surface, c) => priors[c]! + input.evidence[i]![c]! + logLikelihood(surface, at, cov),
        );
      });
    }),
  );
  for (const steps of scores) {
    const real = steps[steps.length - 1]!;
    real.forEach((row, k) => {
      logLight[k]! += SHARED * logSum(row);
    });
  }
  const total = logSum(logLight);
  for (let k = 0; k < logLight.length; k++) logLight[k]! -= total;

  const ladders = scores.map((steps) =>
    steps.map((rows) => {
      const terms = SURFACES.map(() => new Float64Array(nodes.length));
      rows.forEach((row, k) => {
        const own = logSum(row);
        for (let c = 0; c < row.length; c++) terms[c]![k] = logLight[k]! + row[c]! - own;
      });
      return Float64Array.from(terms, (t) => logSum(t));
    }),
  );
  return { ladders, light: momentsOfNodes(nodes, logLight) };
}

function momentsOfNodes(nodes: ReturnType<typeof nodesOf>, logWeight: Float64Array): LightMode {
  let u = 0;
  let v = 0;
  nodes.forEach((n, k) => {
    u += Math.exp(logWeight[k]!) * n.at[0];
    v += Math.exp(logWeight[k]!) * n.at[1];
  });
  let uu = 1e-6;
  let uv = 0;
  let vv = 1e-6;
  nodes.forEach((n, k) => {
    const w = Math.exp(logWeight[k]!);
    uu += w * (n.at[0] - u) ** 2;
    uv += w * (n.at[0] - u) * (n.at[1] - v);
    vv += w * (n.at[1] - v) ** 2;
  });
  return { weight: 1, mean: [u, v], cov: [uu, uv, vv] };
}
