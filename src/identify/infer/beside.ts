import type { Auxiliary, ExtraRatios } from './members';
import type { Units } from './units';

/** Weights of grounding, foreign and auxiliary conductors. */
export interface ExtraWeights {
  readonly ground: number;
  readonly foreign: number;
  readonly auxiliary: number;
}

/**
 * What each conductor may be beside a circuit conductor: grounding, foreign, auxiliary. Thousands of hypotheses share
 * these sums, which are made once.
 */
export interface Beside {
  /** By conductor: share times likelihood ratio, summed over grounding and foreign. */
  readonly alone: Float64Array;
  /** The same with the roles of the auxiliary system. */
  readonly joined: Float64Array;
  /** By conductor: the share that is left for circuit conductors. */
  readonly circuits: Float64Array;
}

export function makeBeside(
  { ground, foreign }: ExtraRatios,
  auxiliary: Auxiliary | null,
  units: Units,
  shares: (company: { readonly auxiliary: Auxiliary | null }, onPole: boolean) => ExtraWeights,
): Beside {
  const weights = units.onPole.map((onPole) => shares({ auxiliary }, onPole));
  const alone = Float64Array.from(weights, (w, i) => w.ground * ground[i]! + w.foreign * foreign[i]!);
  return {
    alone,
    joined: auxiliary ? alone.map((sum, i) => sum + weights[i]!.auxiliary * auxiliary.mean[i]!) : alone,
    circuits: Float64Array.from(weights, (w) => 1 - w.ground - w.foreign - w.auxiliary),
  };
}
