import { COLOR_NAMES, type ColorName } from '../../flow';

/**
 * Probability that insulation made in the first color is seen today as the second. No measured change of building
 * wire was found (reference: ageing), only field reports: colored conductors outdoors bleach toward white, white
 * yellows, natural gray is almost white, dust veils black. Sizes are assumptions of ours.
 */
const DRIFT: readonly (readonly [from: ColorName, to: ColorName, probability: number])[] = [
  ['white', 'yellow', 0.01],
  ['white', 'gray', 0.015],
  ['gray', 'white', 0.03],
  ['black', 'gray', 0.015],
  ['red', 'pink', 0.015],
  ['red', 'orange', 0.01],
  ['red', 'white', 0.003],
  ['brown', 'red', 0.005],
  ['brown', 'black', 0.01],
  ['orange', 'yellow', 0.01],
  ['orange', 'red', 0.005],
  ['yellow', 'white', 0.005],
  ['violet', 'blue', 0.01],
  ['violet', 'gray', 0.005],
  ['violet', 'pink', 0.01],
  ['blue', 'gray', 0.01],
  ['blue', 'turquoise', 0.01],
  ['green', 'turquoise', 0.005],
  ['green', 'gray', 0.005],
  ['green-yellow', 'green', 0.02],
  ['pink', 'white', 0.01],
];

export const COLOR_INDEX: Readonly<Record<ColorName, number>> = Object.fromEntries(
  COLOR_NAMES.map((name, i) => [name, i]),
) as Record<ColorName, number>;

/** Weights by color made, from weights by color seen; both in the order of COLOR_NAMES. */
export function undoAging(seen: Float64Array): Float64Array {
  const made = Float64Array.from(seen);
  for (const [from, to, p] of DRIFT) {
    const f = COLOR_INDEX[from];
    made[f] = made[f]! + p * (seen[COLOR_INDEX[to]]! - seen[f]!);
  }
  return made;
}
