import { MANY_MEAN } from '../model/priors';
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

/** Joint weight of a hypothesis and the picture, all required parts being seen. */
export function weightOf(h: Hypothesis, parts: readonly Unit[], units: Units): number {
  let sum = 0;
  for (const { allowed, sign } of signedParts(h)) {
    let product = 1;
    for (const part of parts) product *= part.weight(allowed);
    sum += sign * product;
  }
  return Math.max(0, sum) * h.prior * sizePrior(h, units.loose.length);
}

const INDEXES: readonly (readonly number[])[] = [[], [0], [0, 1], [0, 1, 2]];

/** An upper bound of `weightOf`, without making any table. */
export function boundOf(h: Hypothesis, units: Units): number {
  let product = h.prior * sizePrior(h, units.loose.length);
  if (units.loose.length > 0) {
    product *=
      h.structure === 'many'
        ? manyWeight(h, units.loose, units, -1, allParts(h))
        : singleSetBound(h, units.loose, units, INDEXES[h.mains.length]!);
  }
  for (const block of units.blocks) product *= blockBound(h, block, units);
  return product;
}

/** Joint weights by conductor and slot, same scale as `weightOf`. */
export function marginalsOf(h: Hypothesis, parts: readonly Unit[], units: Units, conductors: number): Float64Array {
  const out = new Float64Array(conductors * slotsOf(h).count);
  const signs = signedParts(h);
  const scale = h.prior * sizePrior(h, units.loose.length);
  const weights = signs.map(({ allowed }) => parts.map((part) => part.weight(allowed)));
  parts.forEach((part, p) => {
    const terms = signs.map(({ allowed, sign }, s) => {
      let factor = sign * scale;
      weights[s]!.forEach((w, q) => {
        if (q !== p) factor *= w;
      });
      return { allowed, factor };
    });
    part.addMarginals(terms, out);
  });
  for (let i = 0; i < out.length; i++) out[i] = Math.max(0, out[i]!);
  return out;
}
