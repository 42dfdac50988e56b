import { nthSmallest } from '../nth-smallest';
import { strengthOf } from '../spaces';
import { type Cells, median } from './cells';
import type { MarkedRows, RibbonMarks } from './marks';

/** A trend of saturation along a conductor's body. */
export interface FadedRows {
  /** The end at row 0 has faded more, not the other. */
  readonly fadedAtStart: boolean;
  /** Saturation of the faded end as a share of the clean one's, 0 to 1. */
  readonly left: number;
  /** The third that has faded least: first row and one past the last. */
  readonly clean: { readonly from: number; readonly to: number };
  /** The body's cells there. */
  readonly cells: readonly number[];
}

/** Rows needed on each half, how much paler one end must be than the other, and what has no color to lose. Assumed. */
const LEAST_ROWS = 24;
const PALER = 0.72;
const COLORED = 0.06;
/** Cells of body that a row needs to say anything. */
const ROW_CELLS = 3;

/**
 * `told` is what was told of tape and bare metal. Null when the body does not fade steadily from one end to the other, or
 * has no color to lose.
 */
export function fadedRows({ cells, bodyOrTape }: RibbonMarks, told: readonly MarkedRows[]): FadedRows | null {
  const { across } = cells;
  const besides = new Set(told.flatMap((run) => run.cells));
  const own = besides.size === 0 ? bodyOrTape : bodyOrTape.filter((k) => !besides.has(k));
  const rows = rowsOf(own, cells);
  if (rows.length < 2 * LEAST_ROWS) return null;
  const third = Math.floor(rows.length / 3);
  const thirds = [rows.slice(0, third), rows.slice(third, 2 * third), rows.slice(2 * third)];
  const [first, middle, last] = thirds.map((part) => median(part.map((r) => r.v))) as [number, number, number];
  const strongest = Math.max(first, last);
  const left = Math.min(first, last) / Math.max(1e-6, strongest);
  const steady = (first - middle) * (middle - last) > 0;
  if (strongest < COLORED || left > PALER || !steady) return null;
  const fadedAtStart = first < last;
  const clean = thirds[fadedAtStart ? 2 : 0]!;
  const [from, to] = [clean[0]!.row, clean[clean.length - 1]!.row + 1];
  const inside = own.filter((k) => k >= from * across && k < to * across);
  return { fadedAtStart, left, clean: { from, to }, cells: inside };
}

/** Saturation in the middle of each row that has enough cells, from a list of cells that go row by row. */
function rowsOf(own: readonly number[], { across, s, t }: Cells): { readonly row: number; readonly v: number }[] {
  const rows: { readonly row: number; readonly v: number }[] = [];
  const saturations = new Float64Array(across);
  for (let n = 0; n < own.length; ) {
    const row = Math.floor(own[n]! / across);
    let count = 0;
    for (; n < own.length && own[n]! < (row + 1) * across; n++) {
      const k = own[n]!;
      saturations[count++] = strengthOf(s[k]!, t[k]!);
    }
    if (count >= ROW_CELLS) rows.push({ row, v: nthSmallest(saturations, count >> 1, count)! });
  }
  return rows;
}
