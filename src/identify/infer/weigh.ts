import { crowdPower, MANY_MEAN } from '../model/priors';
import { blockBound, blockUnit } from './block';
import { allParts, type Hypothesis, signedParts } from './hypothesis';
import { manyUnit, manyWeight } from './many';
import { singleSetBound, singleSetUnit } from './single-set';
import { slotsOf, type Unit } from './slots';
import type { Units } from './units';

/** The picture cut into parts that are independent given the hypothesis. */
export function unitsOf(h: Hypothesis, units: Units): readonly Unit[] {
  const out: Unit[] = [];
  if (units.loose.length > 0) {
    out.push(
      h.structure === 'many'
        ? manyUnit(h, units.loose, units)
        : singleSetUnit(
            h,
            units.loose,
            units,
            h.mains.map((_, m) => m),
          ),
    );
  }
  for (const block of units.blocks) out.push(blockUnit(h, block, units));
  return out;
}

/** Probability of the number of loose conductors; a single set carries its own. */
const sizePrior = (h: Hypothesis, n: number): number =>
  h.structure === 'many' && n > 0 ? (1 / MANY_MEAN) * (1 - 1 / MANY_MEAN) ** (n - 1) : 1;

/** Likelihood as a crowd may speak: see `CROWD`. */
const tempered = (likelihood: number, units: Units): number => likelihood ** crowdPower(units.onPole.length);

/** A hypothesis weighed against the picture. */
export interface Weighed {
  /** Joint weight of both, all required parts being seen. */
  readonly weight: number;
  /** What turns a likelihood under this hypothesis into a joint weight. */
  readonly scale: number;
  /** The sets of parts of the hypothesis, as `signedParts` gives them. */
  readonly signs: ReturnType<typeof signedParts>;
  /** Weights of each part of the picture, by these sets. */
  readonly parts: readonly (readonly number[])[];
}

export function weigh(h: Hypothesis, parts: readonly Unit[], units: Units): Weighed {
  const size = sizePrior(h, units.loose.length);
  const signs = signedParts(h);
  let sum = 0;
  const table = signs.map(({ allowed, sign }) => {
    const row = parts.map((part) => part.weight(allowed));
    let product: number = sign;
    for (const w of row) product *= w;
    sum += product;
    return row;
  });
  const likelihood = Math.max(0, sum) * size;
  const weight = h.prior * tempered(likelihood, units);
  return { weight, scale: likelihood > 0 ? (weight / likelihood) * size : 0, signs, parts: table };
}

const INDEXES: readonly (readonly number[])[] = [[], [0], [0, 1], [0, 1, 2]];

/** An upper bound of `weigh`, without making any table. */
export function boundOf(h: Hypothesis, units: Units): number {
  let product = sizePrior(h, units.loose.length);
  if (units.loose.length > 0) {
    product *=
      h.structure === 'many'
        ? manyWeight(h, units.loose, -1, allParts(h))
        : singleSetBound(h, units.loose, INDEXES[h.mains.length]!);
  }
  for (const block of units.blocks) product *= blockBound(h, block);
  return h.prior * tempered(product, units);
}

/** Joint weights by conductor and slot, on the scale of `weighed`. */
export function marginalsOf(h: Hypothesis, parts: readonly Unit[], weighed: Weighed, conductors: number): Float64Array {
  const out = new Float64Array(conductors * slotsOf(h).count);
  parts.forEach((part, p) => {
    const terms = weighed.signs.map(({ allowed, sign }, s) => {
      let factor = sign * weighed.scale;
      weighed.parts[s]!.forEach((w, q) => {
        if (q !== p) factor *= w;
      });
      return { allowed, factor };
    });
    part.addMarginals(terms, out);
  });
  for (let i = 0; i < out.length; i++) out[i] = Math.max(0, out[i]!);
  return out;
}
