import { zeros } from './arena';
import { AUXILIARY_BIT, type Hypothesis, soleOf } from './hypothesis';
import { circuitPrior, extraShares, extraTerms } from './role-prior';
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
    const kept = known.get(allowed) ?? manyWeight(h, conductors, only, allowed);
    known.set(allowed, kept);
    return kept;
  };
  return {
    weight,
    addMarginals(terms, out) {
      const slots = slotsOf(h);
      const usable = maskTable(h, slots);
      const table = zeros(conductors.length * slots.count);
      for (let k = 0; k < conductors.length; k++)
        fillRow(table, k * slots.count, h, conductors[k]!, units, slots, only);
      for (const { allowed, factor } of terms) {
        const product = factor * weight(allowed);
        if (product === 0) continue;
        let open = 0;
        for (let s = 0; s < slots.count; s++) if ((usable[s]! & allowed) === usable[s]!) OPEN[open++] = s;
        for (let k = 0; k < conductors.length; k++) {
          const row = k * slots.count;
          let sum = 0;
          for (let o = 0; o < open; o++) sum += table[row + OPEN[o]!]!;
          const scale = product / sum;
          const at = conductors[k]! * slots.count;
          for (let o = 0; o < open; o++) {
            const s = OPEN[o]!;
            out[at + s] = out[at + s]! + scale * table[row + s]!;
          }
        }
      }
    },
  };
}

/** Slots that the allowed parts leave open; no hypothesis has so many. */
const OPEN = new Uint8Array(256);

/** Shares and circuits of the mains in use, kept from one weight to the next: there are ten thousands of them. */
const PARTS = new Float64Array(3);
const CIRCUITS: Float64Array[] = [];

/**
 * Weight of conductors of many circuits; `only` restricts them to one of the mains, -1 to none. Each factor is the sum of
 * all allowed roles of one conductor: the same numbers as `fillRow`, without a row.
 */
export function manyWeight(h: Hypothesis, conductors: readonly number[], only: number, allowed: number): number {
  const { alone, joined, circuits: share } = h.beside.many;
  const beside = allowed & AUXILIARY_BIT ? joined : alone;
  let used = 0;
  for (let m = 0; m < h.mains.length; m++) {
    if ((only >= 0 && only !== m) || !(allowed & (1 << m))) continue;
    const member = h.mains[m]!;
    PARTS[used] = only >= 0 ? 1 : h.mix[m]!;
    CIRCUITS[used++] = soleOf(h, member)?.ratio ?? member.circuit;
  }
  let product = 1;
  for (let k = 0; k < conductors.length; k++) {
    const i = conductors[k]!;
    let circuits = 0;
    for (let u = 0; u < used; u++) circuits += PARTS[u]! * CIRCUITS[u]![i]!;
    product *= beside[i]! + share[i]! * circuits;
  }
  return product;
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

/** Writes what every slot adds to the sum of conductor `i`, from `row` of `table` on. */
function fillRow(
  table: Float64Array,
  row: number,
  h: Hypothesis,
  i: number,
  units: Units,
  slots: Slots,
  only: number,
): void {
  const onPole = units.onPole[i]!;
  extraTerms(h, i, extraShares(h, onPole), table, row, slots);
  const share = h.beside.many.circuits[i]!;
  for (let m = 0; m < h.mains.length; m++) {
    if (only >= 0 && only !== m) continue;
    const member = h.mains[m]!;
    const prior = circuitPrior(member, units.space[i]!, onPole, units.board);
    const part = only >= 0 ? share : share * h.mix[m]!;
    const sole = soleOf(h, member);
    for (let r = 0; r < member.roles.length; r++) {
      const weighed = sole
        ? Number(r === sole.role) * sole.ratio[i]!
        : prior[r]! * member.ratio[i * member.roles.length + r]!;
      table[row + slots.main[m]! + r] = part * weighed;
    }
  }
}
