import { COLOR_NAMES, type ColorCandidate, type ColorName } from '../../flow';

/** A number for each name, mostly its probability. */
export type Names = Record<ColorName, number>;

export const eachName = (of: (name: ColorName) => number): Names =>
  Object.fromEntries(COLOR_NAMES.map((name) => [name, of(name)])) as Names;

/** The probability of a name among candidates, 0 where it is not listed. */
export const probabilityOf = (candidates: readonly ColorCandidate[], name: ColorName): number =>
  candidates.find((c) => c.name === name)?.probability ?? 0;

/** `others` with a share of the say (0 to 1), `names` with the rest. */
export const blend = (names: Readonly<Names>, others: Readonly<Names>, share: number): Names =>
  eachName((name) => (1 - share) * names[name] + share * others[name]);
