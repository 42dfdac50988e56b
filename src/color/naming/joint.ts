import type { ColorName } from '../../flow';
import { type Cov3, logSum } from '../gaussian';
import { isCutOff } from '../light/bright-end';
import { type LightNode, nodesOf } from '../light/posterior';
import type { LightMode } from '../light/types';
import { blurPalette, likelihoods, SURFACES } from '../palette/likelihood';
import { PALETTE_DATA } from '../palette/palette-data';
import type { Body } from '../ribbon/body';
import { featuresUnder, measurementCov, measurementOf } from './measurement';

/** Evidence about one body besides its color: ln factors per surface (from gloss, from a network). */
export type Evidence = Float64Array;

/** A reference of known color: its body and the surface it certainly is. */
export interface KnownBody {
  readonly body: Body;
  readonly name: ColorName;
}

/** What a reference of known lightness says of the scene's white: stops from the anchor, and how well it is known. */
export interface WhiteLevel {
  readonly stops: number;
  readonly sd: number;
}

export interface JointInput {
  readonly bodies: readonly Body[];
  readonly evidence: readonly Evidence[];
  readonly known: readonly KnownBody[];
  readonly whites?: readonly WhiteLevel[];
  readonly modes: readonly LightMode[];
  readonly anchor: number;
}

export interface JointResult {
  /** Per body, per quality step, probabilities over SURFACES. The last step is the real quality. */
  readonly ladders: readonly Float64Array[][];
  /** The light after all bodies were heard, as nodes' moments. */
  readonly light: LightMode;
}

/** Quality steps from a perfect photo of this color to the real one. */
export const QUALITY_STEPS = [0, 0.4, 1] as const;

/**
 * Bodies are independent only as far as the model is right; unmodeled errors they share (processing, mixed light, parts
 * that are no conductors) would be counted once per body. Each body speaks of the light with this weight, and all
 * together with no more than a few bodies' worth. Assumed.
 */
const SHARED = 0.4;
const SHARED_AT_MOST = 5;

/** How far the scene's white may be from the anchor, in stops: shared by all bodies of a photo. Assumed. */
const EXPOSURES = [-1.6, -0.8, 0, 0.8, 1.6] as const;
const EXPOSURE_SD = 0.85;
/**
 * ln prior of the exposures. Where the photo's bright end is cut off, the white may lie anywhere above it: the anchor is
 * then only the least that it can be.
 */
function exposurePrior(anchor: number): number[] {
  const open = isCutOff(anchor);
  const logs = EXPOSURES.map((e) => (open && e > 0 ? 0 : -0.5 * (e / EXPOSURE_SD) ** 2));
  const total = logSum(logs);
  return logs.map((v) => v - total);
}

const N = SURFACES.length;
const PRIORS = Float64Array.from(SURFACES, (surface) => PALETTE_DATA[surface].prior);

/** What one body says of every state, where state = node * exposures + exposure. */
interface Weighed {
  /** Weighted likelihoods: [state * N + surface]. */
  readonly weighted: Float64Array;
  /** Their sum over surfaces in each state. */
  readonly sums: Float64Array;
}

/** A body's features under the light of each node, three a node. */
function featuresAt(nodes: readonly LightNode[], body: Body, anchor: number): Float64Array {
  const features = new Float64Array(3 * nodes.length);
  for (let n = 0; n < nodes.length; n++) features.set(featuresUnder(body, nodes[n]!.at, anchor), 3 * n);
  return features;
}

/** What `features` (of `featuresAt`) say with an error; `factor` is what else is known of each surface. */
function weigh(features: Float64Array, factor: Float64Array, error: Cov3): Weighed {
  const palette = blurPalette(error);
  const states = (features.length / 3) * EXPOSURES.length;
  const weighted = new Float64Array(states * N);
  const sums = new Float64Array(states);
  const block = new Float64Array(EXPOSURES.length * N);
  for (let at = 0, state = 0, k = 0; at < features.length; at += 3) {
    likelihoods(palette, features[at]!, features[at + 1]!, features[at + 2]!, EXPOSURES, block);
    for (let e = 0, b = 0; e < EXPOSURES.length; e++, state++) {
      let sum = 0;
      for (let c = 0; c < N; c++, b++, k++) sum += weighted[k] = block[b]! * factor[c]!;
      sums[state] = sum;
    }
  }
  return { weighted, sums };
}

/** Probabilities over surfaces, averaged over states. */
function averaged({ weighted, sums }: Weighed, state: Float64Array): Float64Array {
  const p = new Float64Array(N);
  for (let n = 0, k = 0; n < state.length; n++) {
    const w = state[n]! / (sums[n]! + 1e-300);
    for (let c = 0; c < N; c++, k++) p[c]! += w * weighted[k]!;
  }
  return p;
}

/** ln weight of every state after the references of known color were heard. */
function heard(nodes: readonly LightNode[], { known, whites = [], anchor }: JointInput): Float64Array {
  const prior = exposurePrior(anchor);
  const exposures = EXPOSURES.map((e, k) =>
    whites.reduce((sum, { stops, sd }) => sum - 0.5 * ((e - stops) / sd) ** 2, prior[k]!),
  );
  const log = Float64Array.from(
    { length: nodes.length * EXPOSURES.length },
    (_, k) => nodes[Math.floor(k / EXPOSURES.length)]!.logWeight + exposures[k % EXPOSURES.length]!,
  );
  for (const { body, name } of known) {
    const only = Float64Array.from(SURFACES, (surface) => (surface === name ? 1 : 0));
    const { sums } = weigh(featuresAt(nodes, body, anchor), only, measurementCov(body, anchor, 1));
    for (let k = 0; k < log.length; k++) log[k]! += Math.log(sums[k]! + 1e-300);
  }
  return log;
}

/** References may speak of a light at the edge of what was expected: the grid moves there, the prior stays. */
function whereToLook(input: JointInput): readonly LightMode[] {
  let around = input.modes;
  if (input.known.length === 0) return around;
  for (let round = 0; round < 3; round++) {
    const nodes = nodesOf(input.modes, around);
    const log = heard(nodes, input);
    const total = logSum(log);
    const { mean, cov } = momentsOfNodes(
      nodes,
      log.map((v) => Math.exp(v - total)),
    );
    // A grid of few nodes understates what lies between them: never narrower than half a step.
    around = [{ weight: 1, mean, cov: [cov[0] + 4e-4, cov[1], cov[2] + 4e-4] }];
  }
  return around;
}

/**
 * Names, light and exposure together, exactly on a grid: every body's likelihood in every state; states weighed by
 * how well they explain all bodies; names averaged over states.
 */
export function inferJointly(input: JointInput): JointResult {
  const nodes = nodesOf(input.modes, whereToLook(input));
  const states = nodes.length * EXPOSURES.length;
  const logState = heard(nodes, input);

  const scored = input.bodies.map((body, i) => {
    const factor = PRIORS.map((prior, c) => prior * Math.exp(input.evidence[i]![c]!));
    const features = featuresAt(nodes, body, input.anchor);
    const errorAt = measurementOf(body, input.anchor);
    return QUALITY_STEPS.map((quality) => weigh(features, factor, errorAt(quality)));
  });
  const voice = Math.min(SHARED, SHARED_AT_MOST / Math.max(1, scored.length));
  for (const steps of scored) {
    const real = steps[steps.length - 1]!.sums;
    for (let k = 0; k < states; k++) logState[k]! += voice * Math.log(real[k]! + 1e-300);
  }
  const total = logSum(logState);
  const state = logState.map((v) => Math.exp(v - total));

  const ladders = scored.map((steps) => steps.map((step) => averaged(step, state)));
  return { ladders, light: momentsOfNodes(nodes, state) };
}

function momentsOfNodes(nodes: readonly LightNode[], state: Float64Array): LightMode {
  const weight = nodes.map((_, n) =>
    EXPOSURES.reduce<number>((sum, _e, e) => sum + state[n * EXPOSURES.length + e]!, 0),
  );
  const mean = (value: (n: LightNode) => number): number => nodes.reduce((sum, n, k) => sum + weight[k]! * value(n), 0);
  const u = mean((n) => n.at[0]);
  const v = mean((n) => n.at[1]);
  return {
    weight: 1,
    mean: [u, v],
    cov: [
      1e-6 + mean((n) => (n.at[0] - u) ** 2),
      mean((n) => (n.at[0] - u) * (n.at[1] - v)),
      1e-6 + mean((n) => (n.at[1] - v) ** 2),
    ],
  };
}
