import { allParts, type Hypothesis } from './hypothesis';
import { manyUnit, manyWeight } from './many';
import { singleSetBound, singleSetUnit } from './single-set';
import type { Unit } from './slots';
import type { Block, Units } from './units';

/** A block belongs to one of the mains, which one is unknown: a mixture by the shares of the hypothesis. */
export function blockUnit(h: Hypothesis, block: Block, units: Units): Unit {
  const child = (m: number): Unit =>
    block.mode === 'set'
      ? singleSetUnit(h, block.conductors, units, [m], block.cabled)
      : manyUnit(h, block.conductors, units, m);
  const parts = h.mains.map((_, m) => ({ unit: child(m), share: h.mix[m]! }));
  return {
    weight(allowed) {
      let sum = 0;
      for (const { unit, share } of parts) sum += share * unit.weight(allowed);
      return sum;
    },
    addMarginals(terms, out) {
      for (const { unit, share } of parts) {
        unit.addMarginals(
          terms.map((t) => ({ allowed: t.allowed, factor: t.factor * share })),
          out,
        );
      }
    },
  };
}

/** An upper bound of a block's weight with all parts allowed. */
export function blockBound(h: Hypothesis, block: Block): number {
  const child = (m: number): number =>
    block.mode === 'set'
      ? singleSetBound(h, block.conductors, [m], block.cabled)
      : manyWeight(h, block.conductors, m, allParts(h));
  let sum = 0;
  for (let m = 0; m < h.mains.length; m++) sum += h.mix[m]! * child(m);
  return sum;
}
