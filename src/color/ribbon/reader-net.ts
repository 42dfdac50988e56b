/** Numbers of the reader's network, as models/training/ribbon/net.py has them, and the arithmetic that it needs. */

export const INPUTS = 9;
export const WIDTH = 40;
export const KINDS = 6;
/** Side of the first kernel, which halves both sides of the ribbon. */
export const FIRST = 4;
/** Rows and columns of the later kernels. */
export const TALL = 5;
export const WIDE = 3;
export const DILATIONS = [1, 2, 4, 8, 2, 1] as const;
/** One half-size cell speaks for four. */
export const SCORES = 4 * KINDS;
/** Rows of zeros above and below a grid: what the widest kernel reaches. One column on each side does. */
export const PAD = 2 * Math.max(...DILATIONS);

export interface Dense {
  readonly weight: Float32Array;
  readonly bias: Float32Array;
}

/** Weights with the outputs last in memory: the innermost loops then run over neighbors. */
export interface NetWeights {
  /** [FIRST][FIRST][INPUTS][WIDTH] */
  readonly first: Dense;
  /** [TALL][WIDE][WIDTH] each */
  readonly depth: readonly Dense[];
  /** [WIDTH][WIDTH] each */
  readonly mix: readonly Dense[];
  /** [WIDTH][SCORES] */
  readonly cells: Dense;
}

/** Room for one ribbon of `rows` x `columns` half-size cells. */
export interface Room {
  /** (2 rows + 2) x (2 columns + 2) x INPUTS: the ribbon's cells within a border of zeros. */
  readonly input: Float32Array;
  /** (rows + 2 PAD) x (columns + 2) x WIDTH: what the network holds, within a border of zeros. */
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
  /** h += positive part of a mixture of the positive part of TALL x WIDE on each channel, rows DILATIONS[block] apart. */
  block(block: number): void;
  /** h to scores. */
  score(): void;
}

/** Where a cell's channels begin in `h`. */
export const cellAt = (i: number, j: number, columns: number): number => ((i + PAD) * (columns + 2) + j + 1) * WIDTH;
