import { type CloserLook, type FineRibbon, SAID } from '../../flow';
import { numbersOfHalves } from '../half';
import { nthSmallest } from '../nth-smallest';
import { strengthOf } from '../spaces';
import { type Cells, cellsOf } from './cells';
import { fastArithmetic } from './kernel';
import {
  ALL,
  type Arithmetic,
  cellAt,
  type Dense,
  FIRST,
  KINDS,
  type NetWeights,
  READER_SHAPES,
  type ReaderName,
  type ReaderShape,
  SCORES,
  SEEN,
  TALL,
  WIDE,
} from './reader-net';
import { plainArithmetic } from './reader-plain';
import { NARROW_WEIGHTS } from './reader-weights';
import { OUTER_WEIGHTS } from './reader-weights-outer';
import { WIDE_WEIGHTS } from './reader-weights-wide';

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
  /** [width][2 width] */
  readonly pool: Dense;
  /** [hidden][3 width + KINDS] */
  readonly whole: Dense;
  /** [LAYOUTS][hidden] */
  readonly layout: Dense;
}

interface Engine {
  readonly weights: ReaderWeights;
  readonly arithmetic: Arithmetic;
}
const opened = new Map<ReaderName, Engine>();
const WEIGHTS = { narrow: NARROW_WEIGHTS, wide: WIDE_WEIGHTS, outer: OUTER_WEIGHTS };

/** The weights, and what computes with them here; decoded once. */
function reader(name: ReaderName): Engine {
  const known = opened.get(name);
  if (known) return known;
  const weights = readerWeights(name);
  const engine = { weights, arithmetic: fastArithmetic(weights) ?? plainArithmetic(weights) };
  opened.set(name, engine);
  return engine;
}

/** Weights in the order that models/training/ribbon/net.py holds its modules in. */
export function readerWeights(name: ReaderName): ReaderWeights {
  const shape = READER_SHAPES[name];
  const { width, dilations, hidden, inputs } = shape;
  let at = 0;
  const take = (n: number): Float32Array => {
    at += n;
    return numbersOfHalves(WEIGHTS[name], at - n, n);
  };
  const dense = (size: number, out: number): Dense => ({ weight: take(size), bias: take(out) });
  const taps = FIRST * FIRST;
  const first = outputsLast(dense(width * inputs * taps, width), inputs * taps, width);
  const depth = dilations.map(() => outputsLast(dense(width * TALL * WIDE, width), TALL * WIDE, width));
  const mix = dilations.map(() => outputsLast(dense(width * width, width), width, width));
  return {
    shape,
    first: tapsFirst(first, width, inputs),
    depth,
    mix,
    pool: dense(2 * width * width, width),
    cells: outputsLast(dense(SCORES * width, SCORES), width, SCORES),
    whole: dense(hidden * (3 * width + KINDS), hidden),
    layout: dense(LAYOUTS * hidden, LAYOUTS),
  };
}

/** [output][rest] to [rest][output]. */
function outputsLast({ weight, bias }: Dense, rest: number, outputs: number): Dense {
  const out = new Float32Array(weight.length);
  for (let o = 0; o < outputs; o++) for (let k = 0; k < rest; k++) out[k * outputs + o] = weight[o * rest + k]!;
  return { weight: out, bias };
}

/** [input][tap][output] to [tap][input][output]: a cell's inputs lie side by side. */
function tapsFirst({ weight, bias }: Dense, width: number, inputs: number): Dense {
  const taps = FIRST * FIRST;
  const out = new Float32Array(weight.length);
  for (let c = 0; c < inputs; c++)
    for (let tap = 0; tap < taps; tap++) {
      const from = (c * taps + tap) * width;
      out.set(weight.subarray(from, from + width), (tap * inputs + c) * width);
    }
  return { weight: out, bias };
}

/** A grid of half-size cells: the conductor's own `columns`, with `beside` more on either side. */
interface HalfGrid {
  readonly shape: ReaderShape;
  readonly rows: number;
  readonly columns: number;
  readonly beside: number;
}

/** Where a cell's channels begin in what the network holds; `j` counts the conductor's own columns. */
const ownAt = ({ shape, columns, beside }: HalfGrid, i: number, j: number): number =>
  cellAt(shape, i, j + beside, columns + 2 * beside);

/**
 * What lies on each cell of a ribbon, and how the conductor is striped. `input` comes from `readerInput` for a
 * reader of this shape. `by`: which reader, or for comparing ways of computing, an engine of its own.
 */
export function readCells(input: Float32Array, { length, across, ok }: Cells, by: ReaderName | Engine): CellReading {
  const { weights: w, arithmetic } = typeof by === 'string' ? reader(by) : by;
  const { shape } = w;
  const rows = (length + 1) >> 1;
  const beside = shape.beside >> 1;
  const columns = across >> 1;
  const grid: HalfGrid = { shape, rows, columns, beside };
  const { input: room, h, scores } = arithmetic.open(rows, columns + 2 * beside);
  room.set(input);
  arithmetic.halve();
  const share = shareSeen(ok, length, across);
  for (let k = 0; k < shape.dilations.length; k++) {
    arithmetic.block(k);
    if (k === POOL_AFTER) addEverywhere(grid, h, relu(apply(w.pool, wholeOf(grid, h, share))));
  }
  arithmetic.score();
  const kinds = new Float32Array(length * across * KINDS);
  for (let row = 0; row < length; row++) kindsOfRow(kinds, row, scores, grid);
  const { width } = shape;
  const whole = new Float32Array(3 * width + KINDS);
  whole.set(wholeOf(grid, h, share), 0);
  whole.set(stripeOf(grid, h, kinds, { length, across, ok }), 2 * width);
  whole.set(usualKinds(kinds, ok), 3 * width);
  return { kinds, layout: Array.from(apply(w.layout, relu(apply(w.whole, whole)))) };
}

/**
 * Writes the probabilities of one row's cells. One half-size cell speaks for four: their scores lie four apart, as PyTorch's
 * pixel shuffle takes them. (Here and below, what is done many times a ribbon has a function of its own: engines make
 * those fast after a few rows of the first ribbon, a loop within a long function only after many ribbons.)
 */
function kindsOfRow(
  kinds: Float32Array,
  row: number,
  scores: Float32Array,
  { columns, beside }: Pick<HalfGrid, 'columns' | 'beside'>,
): void {
  const from = ((row >> 1) * (columns + 2 * beside) + beside) * SCORES + 2 * (row & 1);
  const to = row * 2 * columns * KINDS;
  for (let j = 0; j < columns; j++) {
    softmaxInto(kinds, to + 2 * j * KINDS, scores, from + j * SCORES);
    softmaxInto(kinds, to + (2 * j + 1) * KINDS, scores, from + j * SCORES + 1);
  }
}

/** Mean probability of each kind over the cells that can be relied on, in the scale of the network's inputs. */
function usualKinds(kinds: Float32Array, ok: Uint8Array): Float32Array {
  const told = new Float32Array(KINDS);
  let seen = 0;
  for (let c = 0; c < ok.length; c++) {
    if (!ok[c]) continue;
    seen++;
    addTo(told, 0, kinds, c * KINDS, KINDS, 1);
  }
  return told.map((v) => (8 * v) / Math.max(1, seen));
}

/** Adds `count` values, each `times` as much. */
function addTo(out: Float32Array, to: number, from: Float32Array, at: number, count: number, times: number): void {
  for (let k = 0; k < count; k++) out[to + k]! += times * from[at + k]!;
}

/** Raises to the largest of each. */
function raiseTo(out: Float32Array, to: number, from: Float32Array, at: number, count: number): void {
  for (let k = 0; k < count; k++) if (from[at + k]! > out[to + k]!) out[to + k] = from[at + k]!;
}

/** Of each half-size cell, how much of it was seen. */
function shareSeen(ok: Uint8Array, length: number, across: number): Float32Array {
  const columns = across >> 1;
  const out = new Float32Array(((length + 1) >> 1) * columns);
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) out[(i >> 1) * columns + (j >> 1)]! += ok[i * across + j]! / 4;
  return out;
}

/**
 * What a reader of some shape looks at: the planes of models/training/ribbon/data.py, interleaved, in a grid with a border of one cell and
 * an even number of rows. Ribbons have a multiple of four cells across; what nothing is known of, of columns beside or of what is said, is
 * zero.
 */
export function readerInput(
  ribbon: FineRibbon,
  cells: Cells,
  { inputs, beside }: Pick<ReaderShape, 'inputs' | 'beside'>,
): Float32Array {
  const { length, across } = cells;
  const columns = across + 2 * beside;
  const out = new Float32Array((length + (length & 1) + 2) * (columns + 2) * inputs);
  const from: From = {
    across,
    columns,
    inputs,
    middles: [middleOf(cells.s, cells), middleOf(cells.t, cells), middleOf(cells.z, cells)],
    size: Math.min(2, Math.max(-2, Math.log(Math.max(1, ribbon.widthPx) / 12))),
  };
  const closer = inputs === ALL ? ribbon.closer?.() : undefined;
  fillIn(out, from, cells, { wire: ribbon.wire, said: closer?.said ?? null }, (j) => j + beside);
  if (closer) {
    const outer = cellsOf({ length, across: 2 * beside, ...closer.beside });
    fillIn(out, from, outer, closer.beside, (j) => (j < beside ? j : j + across));
  }
  return out;
}

/** By what the planes of SAID are multiplied: logarithms of odds are large numbers. */
const SAID_SCALE = SAID.map((name) => (name === 'way' || name === 'width' ? 1 : 1 / 4));

/** What the planes of a ribbon's cells are counted from. */
interface From {
  readonly across: number;
  readonly columns: number;
  readonly inputs: number;
  readonly middles: readonly [s: number, t: number, z: number];
  readonly size: number;
}

/** Writes the planes of `cells`, whose columns stand in `out` where `columnOf` says. */
function fillIn(
  out: Float32Array,
  { across, columns, inputs, middles: [s0, t0, z0], size }: From,
  { length, across: width, s, t, z, ok }: Cells,
  { wire, said }: Pick<CloserLook['beside'], 'wire' | 'said'>,
  columnOf: (j: number) => number,
): void {
  const beside = (columns - across) / 2;
  for (let j = 0; j < width; j++) {
    const column = columnOf(j);
    const offset = Math.abs((2 * (column - beside) + 1) / across - 1);
    for (let i = 0, c = j; i < length; i++, c += width) {
      const to = ((i + 1) * (columns + 2) + 1 + column) * inputs;
      if (ok[c]) {
        out[to] = 8 * (s[c]! - s0);
        out[to + 1] = 8 * (t[c]! - t0);
        out[to + 2] = 0.5 * (z[c]! - z0);
        out[to + 3] = 5 * strengthOf(s[c]!, t[c]!);
        out[to + 4] = 0.3 * (z[c]! + 4);
        out[to + 7] = 1;
      }
      out[to + 5] = offset;
      out[to + 8] = size;
      if (wire) out[to + 6] = wire[c]! / 4;
      if (said) for (let k = 0; k < SAID.length; k++) out[to + SEEN + k] = SAID_SCALE[k]! * said[c * SAID.length + k]!;
    }
  }
}

/** Middle value of a plane over the cells that can be relied on, away from the rims. */
function middleOf(plane: Float32Array, { length, across, ok }: Cells): number {
  const values = new Float32Array(plane.length);
  let n = 0;
  for (let i = 0; i < length; i++)
    for (let j = 2, c = i * across + j; j < across - 2; j++, c++) if (ok[c] === 1) values[n++] = plane[c]!;
  return n === 0 ? 0 : nthSmallest(values, n >> 1, n)!;
}

function apply({ weight, bias }: Dense, x: ArrayLike<number>): Float32Array {
  const out = Float32Array.from(bias);
  for (let o = 0, w = 0; o < out.length; o++) for (let k = 0; k < x.length; k++, w++) out[o]! += weight[w]! * x[k]!;
  return out;
}

const relu = (x: Float32Array): Float32Array => x.map((v) => Math.max(0, v));

/** Mean of each channel over what was seen, then its largest value there. */
function wholeOf(grid: HalfGrid, h: Float32Array, share: Float32Array): Float32Array {
  const { columns } = grid;
  const { width } = grid.shape;
  const out = new Float32Array(2 * width);
  let seen = 0;
  for (let c = 0; c < share.length; c++) {
    const part = share[c]!;
    if (part === 0) continue;
    seen += part;
    const j = c % columns;
    const at = ownAt(grid, (c - j) / columns, j);
    addTo(out, 0, h, at, width, part);
    raiseTo(out, width, h, at, width);
  }
  for (let k = 0; k < width; k++) out[k]! /= Math.max(0.25, seen);
  return out;
}

const STRIPE = CELL_KINDS.indexOf('stripe');

/** Mean of each channel over what looks like stripe. */
function stripeOf(
  grid: HalfGrid,
  h: Float32Array,
  kinds: Float32Array,
  { length, across, ok }: Pick<Cells, 'length' | 'across' | 'ok'>,
): Float32Array {
  const { width } = grid.shape;
  const { columns } = grid;
  const out = new Float32Array(width);
  let sum = 0;
  for (let i = 0; i < length; i += 2)
    for (let j = 0; j < columns; j++) {
      let part = 0;
      for (let q = 0; q < 4; q++) {
        const row = i + (q >> 1);
        const cell = row * across + 2 * j + (q & 1);
        if (row < length && ok[cell]) part += kinds[cell * KINDS + STRIPE]! / 4;
      }
      if (part === 0) continue;
      sum += part;
      const at = ownAt(grid, i >> 1, j);
      addTo(out, 0, h, at, width, part);
    }
  return out.map((v) => v / Math.max(0.25, sum));
}

function addEverywhere(grid: HalfGrid, h: Float32Array, x: Float32Array): void {
  const { rows, columns, beside } = grid;
  for (let i = 0; i < rows; i++)
    for (let j = -beside; j < columns + beside; j++) addTo(h, ownAt(grid, i, j), x, 0, x.length, 1);
}

/** Softmax over the kinds of one cell, whose scores lie four apart from `from` on. */
function softmaxInto(out: Float32Array, at: number, scores: Float32Array, from: number): void {
  let top = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < KINDS; k++) top = Math.max(top, scores[from + 4 * k]!);
  let sum = 0;
  for (let k = 0; k < KINDS; k++) {
    const below = scores[from + 4 * k]! - top;
    sum += out[at + k] = below === 0 ? 1 : Math.exp(below);
  }
  for (let k = 0; k < KINDS; k++) out[at + k]! /= sum;
}
