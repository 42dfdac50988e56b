import { AUXILIARY_BIT, type Hypothesis } from './hypothesis';
import { circuitPrior, circuitShare, extraShares, extraTerms } from './role-prior';
import { type Slots, slotsOf, type Unit } from './slots';
import type { Units } from './units';

/**
 * Conductors of many circuits: given the hypothesis each takes its role independently of the others.
 * Weight = product over conductors of the sum over allowed roles of prior times likelihood ratio.
 * `only` restricts a block to one of the mains.
 */
export function manyUnit(h: Hypothesis, conductors: readonly number[], units: Units, only = -1): Unit {
  const slots = slotsOf(h);
  const table = conductors.map((i) => rowOf(h, i, units, slots, only));
  const usable = maskTable(h, slots);
  const sumOf = (row: Float64Array, allowed: number): number => {
    let sum = 0;
    for (let s = 0; s < slots.count; s++) if ((usable[s]! & allowed) === usable[s]!) sum += row[s]!;
    return sum;
  };
  return {
    weight(allowed) {
      let product = 1;
      for (const row of table) product *= sumOf(row, allowed);
      return product;
    },
    addMarginals(terms, out) {
      for (const { allowed, factor } of terms) {
        const sums = table.map((row) => sumOf(row, allowed));
        let product = factor;
        for (const s of sums) product *= s;
        if (product === 0) continue;
        conductors.forEach((i, k) => {
          const row = table[k]!;
          const scale = product / sums[k]!;
          for (let s = 0; s < slots.count; s++) {
            if ((usable[s]! & allowed) === usable[s]!)
              out[i * slots.count + s] = out[i * slots.count + s]! + scale * row[s]!;
          }
        });
      }
    },
  };
}

/** The parts that each slot needs: bit of its main, bit of the auxiliary, or none. */
export function maskTable(h: Hypothesis, slots: Slots): Uint8Array {
  const out = new Uint8Array(slots.count);
  h.mains.forEach((member, m) => {
    out.fill(1 << m, slots.main[m]!, slots.main[m]! + member.roles.length);
  });
  out.fill(AUXILIARY_BIT, slots.auxiliary);
  return out;
}

function rowOf(h: Hypothesis, i: number, units: Units, slots: Slots, only: number): Float64Array {
  const row = new Float64Array(slots.count);
  const onPole = units.onPole[i]!;
  extraTerms(h, i, extraShares(h, onPole), row, slots);
  const share = circuitShare(h, onPole);
  h.mains.forEach((member, m) => {
    if (only >= 0 && only !== m) return;
    const prior = circuitPrior(member, units.space[i]!, onPole);
    const part = only >= 0 ? share : share * h.mix[m]!;
    for (let r = 0; r < member.roles.length; r++) {
      row[slots.main[m]! + r] = part * prior[r]! * member.ratio[i * member.roles.length + r]!;
    }
  });
  return row;
}
