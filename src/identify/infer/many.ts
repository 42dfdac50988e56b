import { zeros } from './arena';
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
  const known = new Map<number, number>();
  const weight = (allowed: number): number => {
    const kept = known.get(allowed) ?? manyWeight(h, conductors, units, only, allowed);
    known.set(allowed, kept);
    return kept;
  };
  return {
    weight,
    addMarginals(terms, out) {
      const slots = slotsOf(h);
      const usable = maskTable(h, slots);
      const table = conductors.map((i) => rowOf(h, i, units, slots, only));
      for (const { allowed, factor } of terms) {
        const product = factor * weight(allowed);
        if (product === 0) continue;
        for (let k = 0; k < conductors.length; k++) {
          const row = table[k]!;
          let sum = 0;
          for (let s = 0; s < slots.count; s++) if ((usable[s]! & allowed) === usable[s]!) sum += row[s]!;
          const scale = product / sum;
          const at = conductors[k]! * slots.count;
          for (let s = 0; s < slots.count; s++) {
            if ((usable[s]! & allowed) === usable[s]!) out[at + s] = out[at + s]! + scale * row[s]!;
          }
        }
      }
    },
  };
}

/** Weight of conductors of many circuits; `only` restricts them to one of the mains, -1 to none. */
export function manyWeight(
  h: Hypothesis,
  conductors: readonly number[],
  units: Units,
  only: number,
  allowed: number,
): number {
  let product = 1;
  for (const i of conductors) product *= sumOf(h, i, units, only, allowed);
  return product;
}

/** Sum of all allowed roles of one conductor; the same numbers as `rowOf`, without a row. */
function sumOf(h: Hypothesis, i: number, units: Units, only: number, allowed: number): number {
  const onPole = units.onPole[i]!;
  const share = extraShares(h, onPole);
  let sum = share.ground * h.extras.ground[i]! + share.foreign * h.extras.foreign[i]!;
  if (h.auxiliary && allowed & AUXILIARY_BIT) sum += share.auxiliary * h.auxiliary.mean[i]!;
  let circuits = 0;
  for (let m = 0; m < h.mains.length; m++) {
    if (only >= 0 ? only !== m : false) continue;
    if (allowed & (1 << m)) circuits += (only >= 0 ? 1 : h.mix[m]!) * circuitOf(h, m, i);
  }
  return sum + circuitShare(h, onPole) * circuits;
}

/** Sum over the circuit roles of a main of prior times ratio. */
function circuitOf(h: Hypothesis, m: number, i: number): number {
  const member = h.mains[m]!;
  return member.soles[h.sole]?.ratio[i] ?? member.circuit[i]!;
}

/** The parts that each slot needs: bit of its main, bit of the auxiliary, or none. */
function maskTable(h: Hypothesis, slots: Slots): Uint8Array {
  const out = new Uint8Array(slots.count);
  h.mains.forEach((member, m) => {
    out.fill(1 << m, slots.main[m]!, slots.main[m]! + member.roles.length);
  });
  out.fill(AUXILIARY_BIT, slots.auxiliary);
  return out;
}

function rowOf(h: Hypothesis, i: number, units: Units, slots: Slots, only: number): Float64Array {
  const row = zeros(slots.count);
  const onPole = units.onPole[i]!;
  extraTerms(h, i, extraShares(h, onPole), row, 0, slots);
  const share = circuitShare(h, onPole);
  h.mains.forEach((member, m) => {
    if (only >= 0 && only !== m) return;
    const prior = circuitPrior(member, units.space[i]!, onPole, units.board);
    const part = only >= 0 ? share : share * h.mix[m]!;
    const sole = member.soles[h.sole];
    for (let r = 0; r < member.roles.length; r++) {
      const weighed = sole
        ? Number(r === sole.role) * sole.ratio[i]!
        : prior[r]! * member.ratio[i * member.roles.length + r]!;
      row[slots.main[m]! + r] = part * weighed;
    }
  });
  return row;
}
