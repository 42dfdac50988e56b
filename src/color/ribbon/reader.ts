import type { FineRibbon } from '../../flow';
import { type Cells, median } from './cells';
import { READER_WEIGHTS } from './reader-weights';

/** What a cell of a ribbon is. `other`: not this conductor, or nothing that was learned. */
export const CELL_KINDS = ['body', 'stripe', 'tape', 'bare', 'other'] as const;
export type CellKind = (typeof CELL_KINDS)[number];
export const LAYOUT_KINDS = ['plain', 'along', 'spiral', 'rings'] as const;

export interface CellReading {
  /** Probabilities, length x across x CELL_KINDS. */
  readonly kinds: Float32Array;
  /** Scores (logits) over LAYOUT_KINDS for the whole conductor, not calibrated. */
  readonly layout: readonly number[];
}

const INPUTS = 10;
const WIDTH = 16;
const KINDS = CELL_KINDS.length;
const LAYOUTS = LAYOUT_KINDS.length;
const DILATIONS = [1, 2, 4, 8, 16] as const;
/** The conductor as a whole is heard after this block. */
const POOL_AFTER = 2;

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
  const first = outputsLast(dense(WIDTH * INPUTS * 9, WIDTH), INPUTS * 9);
  const depth = DILATIONS.map(() => outputsLast(dense(WIDTH * 9, WIDTH), 9));
  const mix = DILATIONS.map(() => outputsLast(dense(WIDTH * WIDTH, WIDTH), WIDTH));
  loaded = {
    first,
    depth,
    mix,
    pool: dense(WIDTH * WIDTH, WIDTH),
    cells: dense(KINDS * WIDTH, KINDS),
    layout: dense(LAYOUTS * (2 * WIDTH + KINDS), LAYOUTS),
  };
  return loaded;
}

/** [output][rest] to [rest][output]. */
function outputsLast({ weight, bias }: Dense, rest: number): Dense {
  const out = new Float32Array(weight.length);
  for (let o = 0; o < WIDTH; o++) for (let k = 0; k < rest; k++) out[k * WIDTH + o] = weight[o * rest + k]!;
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
  const { length, across } = cells;
  const w = weights();
  const input = inputOf(ribbon, cells);
  const n = length * across;
  const h = convolve(input, w.first, length, across);
  const next = new Float32Array(n * WIDTH);
  DILATIONS.forEach((dilation, k) => {
    depthwise(h, next, w.depth[k]!, length, across, dilation);
    mixInto(h, next, w.mix[k]!);
    if (k === POOL_AFTER) addEverywhere(h, relu(apply(w.pool, meanOf(h, cells.ok))));
  });
  const kinds = new Float32Array(n * KINDS);
  for (let c = 0; c < n; c++) kindsInto(kinds, c * KINDS, w.cells, h, c * WIDTH);
  const share = new Float32Array(KINDS);
  const top = new Float32Array(WIDTH);
  let seen = 0;
  for (let c = 0; c < n; c++) {
    if (!cells.ok[c]) continue;
    seen++;
    for (let k = 0; k < KINDS; k++) share[k]! += kinds[c * KINDS + k]!;
    for (let k = 0; k < WIDTH; k++) top[k] = Math.max(top[k]!, h[c * WIDTH + k]!);
  }
  const whole = new Float32Array(2 * WIDTH + KINDS);
  whole.set(meanOf(h, cells.ok), 0);
  whole.set(top, WIDTH);
  whole.set(
    share.map((v) => (8 * v) / Math.max(1, seen)),
    2 * WIDTH,
  );
  return { kinds, layout: Array.from(apply(w.layout, whole)) };
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
  const width = Math.max(1, ribbon.widthPx);
  const size = Math.min(2, Math.max(-2, Math.log(width / 12)));
  const blur = Math.min(2, (4 * ribbon.blurPx) / width);
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
    out[to + 9] = blur;
  }
  return out;
}

const logOdds = (p: number): number => {
  const kept = Math.min(0.98, Math.max(0.02, p));
  return Math.log(kept / (1 - kept));
};

/** 3 x 3 over all inputs, zeros outside, then the positive part. */
function convolve(input: Float32Array, { weight, bias }: Dense, length: number, across: number): Float32Array {
  const out = new Float32Array(length * across * WIDTH);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) {
      const to = (i * across + j) * WIDTH;
      for (let o = 0; o < WIDTH; o++) out[to + o] = bias[o]!;
      for (let di = -1; di <= 1; di++) {
        if (i + di < 0 || i + di >= length) continue;
        for (let dj = -1; dj <= 1; dj++) {
          if (j + dj < 0 || j + dj >= across) continue;
          const from = ((i + di) * across + j + dj) * INPUTS;
          const tap = (di + 1) * 3 + dj + 1;
          for (let c = 0; c < INPUTS; c++) {
            const v = input[from + c]!;
            if (v === 0) continue;
            const w = (c * 9 + tap) * WIDTH;
            for (let o = 0; o < WIDTH; o++) out[to + o]! += v * weight[w + o]!;
          }
        }
      }
      for (let o = 0; o < WIDTH; o++) if (out[to + o]! < 0) out[to + o] = 0;
    }
  return out;
}

/** 3 x 3 on each channel alone, rows `dilation` apart, then the positive part. */
function depthwise(
  h: Float32Array,
  out: Float32Array,
  { weight, bias }: Dense,
  length: number,
  across: number,
  dilation: number,
): void {
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) {
      const to = (i * across + j) * WIDTH;
      for (let o = 0; o < WIDTH; o++) out[to + o] = bias[o]!;
      for (let di = -1; di <= 1; di++) {
        const row = i + di * dilation;
        if (row < 0 || row >= length) continue;
        for (let dj = -1; dj <= 1; dj++) {
          if (j + dj < 0 || j + dj >= across) continue;
          const from = (row * across + j + dj) * WIDTH;
          const w = ((di + 1) * 3 + dj + 1) * WIDTH;
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
    for (let k = 0; k < WIDTH; k++) {
      const v = from[c + k]!;
      if (v === 0) continue;
      const w = k * WIDTH;
      for (let o = 0; o < WIDTH; o++) sum[o]! += v * weight[w + o]!;
    }
    for (let o = 0; o < WIDTH; o++) if (sum[o]! > 0) h[c + o]! += sum[o]!;
  }
}

function apply({ weight, bias }: Dense, x: ArrayLike<number>): Float32Array {
  const out = Float32Array.from(bias);
  for (let o = 0; o < out.length; o++) for (let k = 0; k < x.length; k++) out[o]! += weight[o * x.length + k]! * x[k]!;
  return out;
}

const relu = (x: Float32Array): Float32Array => x.map((v) => Math.max(0, v));

function meanOf(h: Float32Array, ok: Uint8Array): Float32Array {
  const out = new Float32Array(WIDTH);
  let seen = 0;
  for (let c = 0; c < ok.length; c++) {
    if (!ok[c]) continue;
    seen++;
    for (let k = 0; k < WIDTH; k++) out[k]! += h[c * WIDTH + k]!;
  }
  return out.map((v) => v / Math.max(1, seen));
}

function addEverywhere(h: Float32Array, x: Float32Array): void {
  for (let c = 0; c < h.length; c += WIDTH) for (let k = 0; k < WIDTH; k++) h[c + k]! += x[k]!;
}

/** Softmax of the scores of one cell. */
function kindsInto(out: Float32Array, at: number, { weight, bias }: Dense, h: Float32Array, from: number): void {
  let top = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < KINDS; k++) {
    let score = bias[k]!;
    for (let c = 0; c < WIDTH; c++) score += weight[k * WIDTH + c]! * h[from + c]!;
    out[at + k] = score;
    if (score > top) top = score;
  }
  let sum = 0;
  for (let k = 0; k < KINDS; k++) sum += out[at + k] = Math.exp(out[at + k]! - top);
  for (let k = 0; k < KINDS; k++) out[at + k]! /= sum;
}
