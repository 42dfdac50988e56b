interface Place {
  readonly line: number;
  readonly column: number;
}

/** A mutant as far as its place in the random order goes. */
export interface Placed {
  readonly id: string;
  readonly fileName: string;
  readonly location: { readonly start: Place; readonly end: Place };
  readonly mutatorName: string;
  readonly replacement: string;
}

/** Where a mutant stands in the random order of a seed, as a hexadecimal number. */
export function placeOf(mutant: Omit<Placed, 'id'>, seed: number): string;

/** Ids of `count` of the mutants from place `from` on, in the order that the seed gives. */
export function chosen(
  mutants: readonly Placed[],
  sample: { readonly seed: number; readonly from: number; readonly count: number },
): string[];
