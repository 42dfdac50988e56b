import type { BoardNumbering } from '../../flow';
import { breakerSpaces } from '../../identify';

/** Spaces above this are a slip of the hand: the largest boards have 84 (common practice, no source). */
const HIGHEST = 200;

/** Pole spaces and how many poles they are for, as a schedule says it. */
export interface SpaceText {
  readonly spaces: readonly number[];
  readonly poles: number;
}

/**
 * "7" with poles "3" is 7, 9, 11; "7,9,11" is three poles by itself; "7-11" too. Empty text is no space at all, on
 * as many poles as are named (1 when none are). On a board numbered straight down these are 7, 8, 9. Null when it is not
 * clear.
 */
export function readSpaces(space: string, polesText: string, board?: BoardNumbering): SpaceText | null {
  const named = polesText.trim() === '' ? null : /^([123])\s*(?:p|poles?)?$/i.exec(polesText.trim());
  if (named === null && polesText.trim() !== '') return null;
  const poles = named ? Number(named[1]) : null;
  if (space.trim() === '') return { spaces: [], poles: poles ?? 1 };
  const numbers = numbersOf(space, board);
  const [first] = numbers;
  if (first === undefined || numbers.some((n) => n < 1 || n > HIGHEST)) return null;
  if (numbers.length === 1) return { spaces: breakerSpaces(first, poles ?? 1, board), poles: poles ?? 1 };
  return poles !== null && poles !== numbers.length ? null : { spaces: numbers, poles: numbers.length };
}

function numbersOf(text: string, board?: BoardNumbering): number[] {
  const range = /^\s*(\d{1,3})\s*[-–]\s*(\d{1,3})\s*$/.exec(text);
  if (range) {
    const [from, to] = [Number(range[1]), Number(range[2])];
    // The two ends of a breaker lie on one side, so that in the usual numbering they differ by an even number.
    const poles = [2, 3].find((n) => breakerSpaces(from, n, board).at(-1) === to);
    return poles === undefined ? [] : breakerSpaces(from, poles, board);
  }
  // A tandem breaker's halves share the pole: "12A" lies on 12.
  const words = text.split(/[\s,/;&+]+/).filter((word) => word !== '');
  const numbers = words.map((word) => Number(/^(\d{1,3})[a-z]?$/i.exec(word)?.[1] ?? Number.NaN));
  const distinct = new Set(numbers).size === numbers.length && numbers.length <= 3;
  return distinct && numbers.every((n) => Number.isInteger(n)) ? numbers : [];
}
