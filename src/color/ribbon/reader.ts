import type { FineRibbon } from '../../flow';
import { numbersOfHalves } from '../half';
import type { Cells } from './cells';
import { fastArithmetic } from './kernel';
import {
  type Arithmetic,
  cellAt,
  type Dense,
  DILATIONS,
  FIRST,
  INPUTS,
  KINDS,
  type NetWeights,
  SCORES,
  TALL,
  WIDE,
  WIDTH,
} from './reader-net';
import { plainArithmetic } from './reader-plain';
import { READER_WEIGHTS } from './reader-weights';

/** What a cell of a ribbon is. `other`: not this conductor, or nothing that was learned. */
export const CELL_KINDS = ['body', 'stripe', 'tape', 'bare', 'other', 'print'] as const;
export type CellKind = (typeof CELL_KINDS)[number];
export const LAYOUT_KINDS = ['plain', 'along', 'spiral', 'rings'] as const;

export interface CellReading {
  /** Probabilities, length x across x CELL_KINDS. */
  readonly kinds: Float32Array;
  /** Scores (logits) over LAYOUT_KINDS for the whole conductor, not calibrated. */
  readonly layout: readonly number[];
}

const LAYOUTS = LAYOUT_KINDS.length;
/** The conductor as a whole is heard after this block. */
const POOL_AFTER = 3;

/** The whole network: what needs a conductor's every cell, and what is told of it as a whole. */
export interface ReaderWeights extends NetWeights {
  /** [WIDTH][2 WIDTH] */
  readonly pool: Dense;
  /** [LAYOUTS][2 WIDTH + KINDS] */
  readonly layout: Dense;
}

let opened: { readonly weights: ReaderWeights; readonly arithmetic: Arithmetic } | null = null;

/** The weights, and what computes with them here; decoded once. */
function reader() {
  if (!opened) {
    const weights = readerWeights();
    opened = { weights, arithmetic: fastArithmetic(weights) ?? plainArithmetic(weights) };
  }
  return opened;
}

/** Weights in the order that models/training/ribbon/net.py holds its modules in. */
export function readerWeights(): ReaderWeights {
  let at = 0;
  const take = (n: number): Float32Array => {
    at += n;
    return numbersOfHalves(READER_WEIGHTS, at - n, n);
  };
  const dense = (size: number, out: number): Dense => ({ weight: take(size), bias: take(out) });
  const taps = FIRST * FIRST;
  const first = outputsLast(dense(WIDTH * INPUTS * taps, WIDTH), INPUTS * taps, WIDTH);
  const depth = DILATIONS.map(() => outputsLast(dense(WIDTH * TALL * WIDE, WIDTH), TALL * WIDE, WIDTH));
  const mix = DILATIONS.map(() => outputsLast(dense(WIDTH * WIDTH, WIDTH), WIDTH, WIDTH));
  return {
    first: tapsFirst(first),
    depth,
    mix,
    pool: dense(2 * WIDTH * WIDTH, WIDTH),
    cells: outputsLast(dense(SCORES * WIDTH, SCORES), WIDTH, SCORES),
    layout: dense(LAYOUTS * (2 * WIDTH + KINDS), LAYOUTS),
  };
}

/** [output][rest] to [rest][output]. */
function outputsLast({ weight, bias }: Dense, rest: number, outputs: number): Dense {
  const out = new Float32Array(weight.length);
  for (let o = 0; o < outputs; o++) for (let k = 0; k < rest; k++) out[k * outputs + o] = weight[o * rest + k]!;
  return { weight: out, bias };
}

/** [input][tap][output] to [tap][input][output]: a cell's inputs lie side by side. */
function tapsFirst({ weight, bias }: Dense): Dense {
  const taps = FIRST * FIRST;
  const out = new Float32Array(weight.length);
  for (let c = 0; c < INPUTS; c++)
    for (let tap = 0; tap < taps; tap++) {
      const from = (c * taps + tap) * WIDTH;
      out.set(weight.subarray(from, from + WIDTH), (tap * INPUTS + c) * WIDTH);
    }
  return { weight: out, bias };
}

/**
 * What lies on each cell of a ribbon, and how the conductor is striped. Ribbons have a multiple of four cells across.
 * `engine` is for comparing ways of computing.
 */
export function readCells(ribbon: FineRibbon, cells: Cells, engine = reader()): CellReading {
  const { length, across, ok } = cells;
  const { weights: w, arithmetic } = engine;
  const rows = (length + 1) >> 1;
  const columns = across >> 1;
  const { input, h, scores } = arithmetic.open(rows, columns);
  inputInto(input, ribbon, cells);
  arithmetic.halve();
  const share = shareSeen(ok, length, across);
  for (let k = 0; k < DILATIONS.length; k++) {
    arithmetic.block(k);
    if (k === POOL_AFTER) addEverywhere(h, relu(apply(w.pool, wholeOf(h, share, columns))), rows, columns);
  }
  arithmetic.score();
  const kinds = new Float32Array(length * across * KINDS);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++)
      // One half-size cell speaks for four: their scores lie four apart, as PyTorch's pixel shuffle takes them.
      for (let q = 0; q < 4; q++) {
        const row = 2 * i + (q >> 1);
        const to = (row * across + 2 * j + (q & 1)) * KINDS;
        if (row < length) softmaxInto(kinds, to, scores, (i * columns + j) * SCORES + q);
      }
  const told = new Float32Array(KINDS);
  let seen = 0;
  for (let c = 0; c < length * across; c++) {
    if (!ok[c]) continue;
    seen++;
    for (let k = 0; k < KINDS; k++) told[k]! += kinds[c * KINDS + k]!;
  }
  const whole = new Float32Array(2 * WIDTH + KINDS);
  whole.set(wholeOf(h, share, columns), 0);
  whole.set(
    told.map((v) => (8 * v) / Math.max(1, seen)),
    2 * WIDTH,
  );
  return { kinds, layout: Array.from(apply(w.layout, whole)) };
}

/** Of each half-size cell, how much of it was seen. */
function shareSeen(ok: Uint8Array, length: number, across: number): Float32Array {
  const columns = across >> 1;
  const out = new Float32Array(((length + 1) >> 1) * columns);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) out[(i >> 1) * columns + (j >> 1)]! += ok[i * across + j]! / 4;
  return out;
}

/** The planes of models/training/ribbon/data.py, interleaved, into a grid with a border of one cell. */
function inputInto(out: Float32Array, ribbon: FineRibbon, { length, across, s, t, z, ok }: Cells): void {
  const n = length * across;
  const middle = (plane: Float32Array): number => {
    const values = plane.filter((_, c) => {
      const j = c % across;
      return ok[c] === 1 && j > 1 && j < across - 2;
    });
    return values.length ? values.sort()[values.length >> 1]! : 0;
  };
  const [s0, t0, z0] = [middle(s), middle(t), middle(z)];
  const size = Math.min(2, Math.max(-2, Math.log(Math.max(1, ribbon.widthPx) / 12)));
  const { wire } = ribbon;
  for (let c = 0; c < n; c++) {
    const j = c % across;
    const to = (((c - j) / across + 1) * (across + 2) + j + 1) * INPUTS;
    if (ok[c]) {
      out[to] = 8 * (s[c]! - s0);
      out[to + 1] = 8 * (t[c]! - t0);
      out[to + 2] = 0.5 * (z[c]! - z0);
      out[to + 3] = 5 * Math.hypot(s[c]!, t[c]!);
      out[to + 4] = 0.3 * (z[c]! + 4);
      out[to + 7] = 1;
    }
    out[to + 5] = Math.abs((2 * j + 1) / across - 1);
    if (wire) out[to + 6] = logOdds(wire[c]!) / 4;
    out[to + 8] = size;
  }
}

const logOdds = (p: number): number => {
  const kept = Math.min(0.98, Math.max(0.02, p));
  return Math.log(kept / (1 - kept));
};

function apply({ weight, bias }: Dense, x: ArrayLike<number>): Float32Array {
  const out = Float32Array.from(bias);
  for (let o = 0; o < out.length; o++) for (let k = 0; k < x.length; k++) out[o]! += weight[o * x.length + k]! * x[k]!;
  return out;
}

const relu = (x: Float32Array): Float32Array => x.map((v) => Math.max(0, v));

/** Mean of each channel over what was seen, then its largest value there. */
function wholeOf(h: Float32Array, share: Float32Array, columns: number): Float32Array {
  const out = new Float32Array(2 * WIDTH);
  let seen = 0;
  share.forEach((part, c) => {
    if (part === 0) return;
    seen += part;
    const j = c % columns;
    const at = cellAt((c - j) / columns, j, columns);
    for (let k = 0; k < WIDTH; k++) {
      const v = h[at + k]!;
      out[k]! += part * v;
      if (v > out[WIDTH + k]!) out[WIDTH + k] = v;
    }
  });
  for (let k = 0; k < WIDTH; k++) out[k]! /= Math.max(0.25, seen);
  return out;
}

function addEverywhere(h: Float32Array, x: Float32Array, rows: number, columns: number): void {
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      const at = cellAt(i, j, columns);
      for (let k = 0; k < WIDTH; k++) h[at + k]! += x[k]!;
    }
}

/** Softmax over the kinds of one cell, whose scores lie four apart from `from` on. */
function softmaxInto(out: Float32Array, at: number, scores: Float32Array, from: number): void {
  let top = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < KINDS; k++) top = Math.max(top, scores[from + 4 * k]!);
  let sum = 0;
  for (let k = 0; k < KINDS; k++) sum += out[at + k] = Math.exp(scores[from + 4 * k]! - top);
  for (let k = 0; k < KINDS; k++) out[at + k]! /= sum;
}
