import type { FineRibbon } from '../../flow';
import { type Cells, median } from './cells';
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

const INPUTS = 9;
const WIDTH = 40;
const KINDS = CELL_KINDS.length;
const LAYOUTS = LAYOUT_KINDS.length;
/** Side of the first kernel, which halves both sides of the ribbon. */
const FIRST = 4;
/** Rows and columns of the later kernels. */
const TALL = 5;
const WIDE = 3;
const DILATIONS = [1, 2, 4, 8, 2, 1] as const;
/** The conductor as a whole is heard after this block. */
const POOL_AFTER = 3;

interface Weights {
  readonly first: Dense;
  readonly depth: readonly Dense[];
  readonly mix: readonly Dense[];
  readonly pool: Dense;
  readonly cells: Dense;
  readonly layout: Dense;
}

interface Dense {
  readonly weight: Float32Array;
  readonly bias: Float32Array;
}

let loaded: Weights | null = null;

/** Weights in the order that models/training/ribbon/net.py holds its modules in, decoded once. */
function weights(): Weights {
  if (loaded) return loaded;
  let at = 0;
  const take = (n: number): Float32Array => {
    const out = new Float32Array(n);
    for (let k = 0; k < n; k++, at += 4) out[k] = fromHalf(Number.parseInt(READER_WEIGHTS.slice(at, at + 4), 16));
    return out;
  };
  const dense = (size: number, out: number): Dense => ({ weight: take(size), bias: take(out) });
  // Outputs come last in memory: the innermost loops then run over neighbors.
  const first = outputsLast(dense(WIDTH * INPUTS * FIRST * FIRST, WIDTH), INPUTS * FIRST * FIRST, WIDTH);
  const depth = DILATIONS.map(() => outputsLast(dense(WIDTH * TALL * WIDE, WIDTH), TALL * WIDE, WIDTH));
  const mix = DILATIONS.map(() => outputsLast(dense(WIDTH * WIDTH, WIDTH), WIDTH, WIDTH));
  loaded = {
    first,
    depth,
    mix,
    pool: dense(2 * WIDTH * WIDTH, WIDTH),
    cells: outputsLast(dense(4 * KINDS * WIDTH, 4 * KINDS), WIDTH, 4 * KINDS),
    layout: dense(LAYOUTS * (2 * WIDTH + KINDS), LAYOUTS),
  };
  return loaded;
}

/** [output][rest] to [rest][output]. */
function outputsLast({ weight, bias }: Dense, rest: number, outputs: number): Dense {
  const out = new Float32Array(weight.length);
  for (let o = 0; o < outputs; o++) for (let k = 0; k < rest; k++) out[k * outputs + o] = weight[o * rest + k]!;
  return { weight: out, bias };
}

/** IEC 60559 binary16. */
function fromHalf(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 31;
  const fraction = bits & 1023;
  if (exponent === 0) return (sign * fraction) / 2 ** 24;
  return sign * 2 ** (exponent - 15) * (1 + fraction / 1024);
}

/** What lies on each cell of a ribbon, and how the conductor is striped. Ribbons have 12 cells across. */
export function readCells(ribbon: FineRibbon, cells: Cells): CellReading {
  const { length, across, ok } = cells;
  const w = weights();
  const rows = (length + 1) >> 1;
  const columns = across >> 1;
  const h = halve(inputOf(ribbon, cells), w.first, length, across);
  const next = new Float32Array(h.length);
  const share = shareSeen(ok, length, across);
  DILATIONS.forEach((dilation, k) => {
    depthwise(h, next, w.depth[k]!, rows, columns, dilation);
    mixInto(h, next, w.mix[k]!);
    if (k === POOL_AFTER) addEverywhere(h, relu(apply(w.pool, wholeOf(h, share))));
  });
  const kinds = new Float32Array(length * across * KINDS);
  const scores = new Float32Array(4 * KINDS);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      scores.set(w.cells.bias);
      addMixed(scores, w.cells.weight, h, (i * columns + j) * WIDTH);
      // One half-size cell speaks for four: their scores lie four apart, as PyTorch's pixel shuffle takes them.
      for (let q = 0; q < 4; q++) {
        const row = 2 * i + (q >> 1);
        if (row < length) softmaxInto(kinds, (row * across + 2 * j + (q & 1)) * KINDS, scores, q);
      }
    }
  const told = new Float32Array(KINDS);
  let seen = 0;
  for (let c = 0; c < length * across; c++) {
    if (!ok[c]) continue;
    seen++;
    for (let k = 0; k < KINDS; k++) told[k]! += kinds[c * KINDS + k]!;
  }
  const whole = new Float32Array(2 * WIDTH + KINDS);
  whole.set(wholeOf(h, share), 0);
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

/** The planes of models/training/ribbon/data.py, interleaved. */
function inputOf(ribbon: FineRibbon, { length, across, s, t, z, ok }: Cells): Float32Array {
  const n = length * across;
  const out = new Float32Array(n * INPUTS);
  const middle = (plane: Float32Array): number => {
    const values: number[] = [];
    for (let c = 0; c < n; c++) {
      const j = c % across;
      if (ok[c] && j > 1 && j < across - 2) values.push(plane[c]!);
    }
    return values.length ? median(values) : 0;
  };
  const [s0, t0, z0] = [middle(s), middle(t), middle(z)];
  const size = Math.min(2, Math.max(-2, Math.log(Math.max(1, ribbon.widthPx) / 12)));
  const { wire } = ribbon;
  for (let c = 0, to = 0; c < n; c++, to += INPUTS) {
    if (ok[c]) {
      out[to] = 8 * (s[c]! - s0);
      out[to + 1] = 8 * (t[c]! - t0);
      out[to + 2] = 0.5 * (z[c]! - z0);
      out[to + 3] = 5 * Math.hypot(s[c]!, t[c]!);
      out[to + 4] = 0.3 * (z[c]! + 4);
      out[to + 7] = 1;
    }
    out[to + 5] = Math.abs((2 * (c % across) + 1) / across - 1);
    if (wire) out[to + 6] = logOdds(wire[c]!) / 4;
    out[to + 8] = size;
  }
  return out;
}

const logOdds = (p: number): number => {
  const kept = Math.min(0.98, Math.max(0.02, p));
  return Math.log(kept / (1 - kept));
};

/** 4 x 4 over all inputs at every second row and column, zeros outside, then the positive part. */
function halve(input: Float32Array, { weight, bias }: Dense, length: number, across: number): Float32Array {
  const rows = (length + 1) >> 1;
  const columns = across >> 1;
  const out = new Float32Array(rows * columns * WIDTH);
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      const to = (i * columns + j) * WIDTH;
      for (let o = 0; o < WIDTH; o++) out[to + o] = bias[o]!;
      for (let di = 0; di < FIRST; di++) {
        const row = 2 * i + di - 1;
        if (row < 0 || row >= length) continue;
        for (let dj = 0; dj < FIRST; dj++) {
          const column = 2 * j + dj - 1;
          if (column < 0 || column >= across) continue;
          const from = (row * across + column) * INPUTS;
          const tap = di * FIRST + dj;
          for (let c = 0; c < INPUTS; c++) {
            const v = input[from + c]!;
            if (v === 0) continue;
            const w = (c * FIRST * FIRST + tap) * WIDTH;
            for (let o = 0; o < WIDTH; o++) out[to + o]! += v * weight[w + o]!;
          }
        }
      }
      for (let o = 0; o < WIDTH; o++) if (out[to + o]! < 0) out[to + o] = 0;
    }
  return out;
}

/** 5 x 3 on each channel alone, rows `dilation` apart, then the positive part. */
function depthwise(
  h: Float32Array,
  out: Float32Array,
  { weight, bias }: Dense,
  rows: number,
  columns: number,
  dilation: number,
): void {
  for (let i = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) {
      const to = (i * columns + j) * WIDTH;
      for (let o = 0; o < WIDTH; o++) out[to + o] = bias[o]!;
      for (let di = 0; di < TALL; di++) {
        const row = i + (di - 2) * dilation;
        if (row < 0 || row >= rows) continue;
        for (let dj = 0; dj < WIDE; dj++) {
          const column = j + dj - 1;
          if (column < 0 || column >= columns) continue;
          const from = (row * columns + column) * WIDTH;
          const w = (di * WIDE + dj) * WIDTH;
          for (let o = 0; o < WIDTH; o++) out[to + o]! += h[from + o]! * weight[w + o]!;
        }
      }
      for (let o = 0; o < WIDTH; o++) if (out[to + o]! < 0) out[to + o] = 0;
    }
}

/** h += positive part of a mixture of channels. */
function mixInto(h: Float32Array, from: Float32Array, { weight, bias }: Dense): void {
  const sum = new Float32Array(WIDTH);
  for (let c = 0; c < h.length; c += WIDTH) {
    sum.set(bias);
    addMixed(sum, weight, from, c);
    for (let o = 0; o < WIDTH; o++) if (sum[o]! > 0) h[c + o]! += sum[o]!;
  }
}

/** sum += weights [WIDTH][outputs] times the channels of one cell. */
function addMixed(sum: Float32Array, weight: Float32Array, from: Float32Array, at: number): void {
  const outputs = sum.length;
  for (let k = 0; k < WIDTH; k++) {
    const v = from[at + k]!;
    if (v === 0) continue;
    const w = k * outputs;
    for (let o = 0; o < outputs; o++) sum[o]! += v * weight[w + o]!;
  }
}

function apply({ weight, bias }: Dense, x: ArrayLike<number>): Float32Array {
  const out = Float32Array.from(bias);
  for (let o = 0; o < out.length; o++) for (let k = 0; k < x.length; k++) out[o]! += weight[o * x.length + k]! * x[k]!;
  return out;
}

const relu = (x: Float32Array): Float32Array => x.map((v) => Math.max(0, v));

/** Mean of each channel over what was seen, then its largest value there. */
function wholeOf(h: Float32Array, share: Float32Array): Float32Array {
  const out = new Float32Array(2 * WIDTH);
  let seen = 0;
  share.forEach((part, c) => {
    if (part === 0) return;
    seen += part;
    for (let k = 0; k < WIDTH; k++) {
      const v = h[c * WIDTH + k]!;
      out[k]! += part * v;
      if (v > out[WIDTH + k]!) out[WIDTH + k] = v;
    }
  });
  for (let k = 0; k < WIDTH; k++) out[k]! /= Math.max(0.25, seen);
  return out;
}

function addEverywhere(h: Float32Array, x: Float32Array): void {
  for (let c = 0; c < h.length; c += WIDTH) for (let k = 0; k < WIDTH; k++) h[c + k]! += x[k]!;
}

/** Softmax of cell `q` of the four that `scores` [kinds][4] speaks for. */
function softmaxInto(out: Float32Array, at: number, scores: Float32Array, q: number): void {
  let top = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < KINDS; k++) top = Math.max(top, scores[4 * k + q]!);
  let sum = 0;
  for (let k = 0; k < KINDS; k++) sum += out[at + k] = Math.exp(scores[4 * k + q]! - top);
  for (let k = 0; k < KINDS; k++) out[at + k]! /= sum;
}
