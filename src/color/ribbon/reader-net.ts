import { BESIDE, SAID } from '../../flow';

/** Numbers of the readers' networks, as models/training/ribbon/net.py has them, and the arithmetic that they need. */

/** Planes of a cell that every reader looks at; one that looks closer has SAID too. */
export const SEEN = 9;
export const ALL = SEEN + SAID.length;
export const KINDS = 6;
/** Side of the first kernel, which halves both sides of the ribbon. */
export const FIRST = 4;
/** Rows and columns of the later kernels. */
export const TALL = 5;
export const WIDE = 3;
/** One half-size cell speaks for four. */
export const SCORES = 4 * KINDS;

/** What one reader differs in from another. */
export interface ReaderShape {
  /** Channels of a cell, a multiple of eight. */
  readonly width: number;
  /** Of each block: how far apart the rows lie that it looks at. */
  readonly dilations: readonly number[];
  /** Values between what is heard of a whole conductor and what is said of it. */
  readonly hidden: number;
  /** Planes of a cell that it looks at. */
  readonly inputs: typeof SEEN | typeof ALL;
  /** Columns of cells that it sees on either side of the conductor; their number is even. */
  readonly beside: 0 | typeof BESIDE;
}
/** The narrow one reads every conductor, the outer one again what the narrow one doubts, the wide one what both do. */
export const READER_SHAPES = {
  narrow: { width: 40, dilations: [1, 2, 4, 8, 2, 1], hidden: 48, inputs: SEEN, beside: 0 },
  wide: { width: 96, dilations: [1, 2, 4, 8, 16, 8, 4, 2, 1], hidden: 96, inputs: SEEN, beside: 0 },
  outer: { width: 128, dilations: [1, 2, 4, 8, 16, 8, 4, 2, 1], hidden: 128, inputs: ALL, beside: BESIDE },
} as const satisfies Record<string, ReaderShape>;
export type ReaderName = keyof typeof READER_SHAPES;

/** Rows of zeros above and below a grid: what the widest kernel reaches. One column on each side does. */
export const padOf = ({ dilations }: ReaderShape): number => 2 * Math.max(...dilations);

export interface Dense {
  readonly weight: Float32Array;
  readonly bias: Float32Array;
}

/** Weights with the outputs last in memory: the innermost loops then run over neighbors. */
export interface NetWeights {
  readonly shape: ReaderShape;
  /** [FIRST][FIRST][inputs][width] */
  readonly first: Dense;
  /** [TALL][WIDE][width] each */
  readonly depth: readonly Dense[];
  /** [width][width] each */
  readonly mix: readonly Dense[];
  /** [width][SCORES] */
  readonly cells: Dense;
}

/** Room for one ribbon of `rows` x `columns` half-size cells. */
export interface Room {
  /** (2 rows + 2) x (2 columns + 2) x inputs: the ribbon's cells within a border of zeros. */
  readonly input: Float32Array;
  /** (rows + 2 pads) x (columns + 2) x width: what the network holds, within a border of zeros. */
  readonly h: Float32Array;
  /** rows x columns x SCORES */
  readonly scores: Float32Array;
}

/**
 * Does the network's steps on one ribbon at a time. `open` gives room that is all zero and valid until the next `open`;
 * `columns` is even.
 */
export interface Arithmetic {
  open(rows: number, columns: number): Room;
  /** input to h: FIRST x FIRST at every second row and column, then the positive part. */
  halve(): void;
  /** h += positive part of a mixture of the positive part of TALL x WIDE on each channel, rows dilations[block] apart. */
  block(block: number): void;
  /** h to scores. */
  score(): void;
}

/** Where a cell's channels begin in `h`. */
export const cellAt = (shape: ReaderShape, i: number, j: number, columns: number): number =>
  ((i + padOf(shape)) * (columns + 2) + j + 1) * shape.width;

/** Length of `h`. */
export const gridSize = (shape: ReaderShape, rows: number, columns: number): number =>
  cellAt(shape, rows, columns, columns) + cellAt(shape, 0, 0, columns);
