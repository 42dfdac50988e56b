import type { Hypothesis } from './hypothesis';
import { manyUnit } from './many';
import { singleSetUnit } from './single-set';
import type { Unit } from './slots';
import type { Block, Units } from './units';

/** A block belongs to one of the mains, which one is unknown: a mixture by the shares of the hypothesis. */
export function blockUnit(h: Hypothesis, block: Block, units: Units): Unit {
  const child = (m: number): Unit =>
    block.mode === 'set'
      ? singleSetUnit(h, block.conductors, units, m < 0 ? [] : [m])
      : manyUnit(h, block.conductors, units, m);
  if (h.mains.length === 0) return child(-1);
  const parts = h.mains.map((_, m) => ({ unit: child(m), share: h.mix[m]! }));
  return {
    weight(allowed) {
      let sum = 0;
      for (const { unit, share } of parts) sum += share * unit.weight(allowed);
      return sum;
    },
    bound(allowed) {
      let sum = 0;
      for (const { unit, share } of parts) sum += share * unit.bound(allowed);
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
