import type { Ribbon } from '../../flow';

/** A straightened conductor whose cells are of its body (1), of a second color (2), or neither (0). Rows along. */
export interface TwoColorGrid {
  readonly length: number;
  readonly across: number;
  readonly cells: Uint8Array;
  /** Rows to a diameter. */
  readonly perDiameter: number;
}

/** `cells` laid over a straightened conductor of the same rows and columns. */
export const twoColorGrid = (
  { length, across, widthPx, stepPx }: Pick<Ribbon, 'length' | 'across' | 'widthPx' | 'stepPx'>,
  cells: Uint8Array,
): TwoColorGrid => ({ length, across, cells, perDiameter: widthPx / Math.max(1e-6, stepPx) });

/**
 * Agreement beyond chance (Cohen's kappa, 1960) of a conductor with its own columns, or with itself some way on, from which
 * on the second color is one pattern. A stripe is extruded: it goes on as it began. Assumed.
 */
const AGREED = 0.45;
/** Half a turn on, a stripe that turns agrees with itself at most this part as well as a whole turn on. Assumed. */
const HALF_WAY = 0.5;
/** Turns and rings are farther apart than this, diameters. Assumed. */
const CLOSEST = 0.5;

/**
 * Whether a second color goes on along the conductor as a stripe does: in the same place of every row, or again and again
 * at the same distance, at least twice. What lies across, a neighbor that comes near, or a line that runs from one conductor
 * onto another does neither.
 */
export function recurs(grid: TwoColorGrid): boolean {
  return steady(grid) || turning(grid);
}

/** Over so many diameters a stripe that runs along keeps its place, though conductors twist when pulled. Assumed. */
const STRAIGHT = 3;

function steady(grid: TwoColorGrid): boolean {
  const pieces = piecesOf(grid);
  let sum = 0;
  for (const columns of pieces) {
    let [a, b, c, d] = [0, 0, 0, 0];
    for (const { body, second } of columns) {
      // The pattern has one color a column, that of most of its cells.
      if (second > body) {
        c += body;
        d += second;
      } else {
        a += body;
        b += second;
      }
    }
    sum += kappa(a, b, c, d);
  }
  return sum / pieces.length >= AGREED;
}

interface Column {
  readonly body: number;
  readonly second: number;
}

/** Pieces short enough that a stripe along keeps its place, and how many cells of each column are what. At least one. */
function piecesOf({ length, across, cells, perDiameter }: TwoColorGrid): Column[][] {
  const rows = Math.max(1, Math.round(STRAIGHT * perDiameter));
  const pieces = Math.max(1, Math.round(length / rows));
  return Array.from({ length: pieces }, (_, p) => {
    const [from, to] = [Math.floor((p * length) / pieces), Math.floor(((p + 1) * length) / pieces)];
    return Array.from({ length: across }, (_, j) => {
      const count = [0, 0, 0];
      for (let i = from; i < to; i++) count[cells[i * across + j]!]!++;
      return { body: count[1]!, second: count[2]! };
    });
  });
}

/** Share of a column from which on a stripe runs in it, and from which on it does so without a gap. Assumed. */
const RUNS = 0.3;
const WHOLE = 0.8;

/** What stripes that run along look like: how many lie side by side on the seen side (at least 1), and whether in dashes. */
export function linesAlong(grid: TwoColorGrid): { readonly count: number; readonly dashed: boolean } {
  const pieces = piecesOf(grid).map((columns) => {
    const shares = columns.map(({ body, second }) => second / Math.max(1, body + second));
    const lines = shares.filter((v, j) => v >= RUNS && !(j > 0 && shares[j - 1]! >= RUNS)).length;
    return { lines, most: Math.max(...shares) };
  });
  const middle = (values: number[]): number => values.sort((p, q) => p - q)[values.length >> 1]!;
  const count = Math.max(1, middle(pieces.map(({ lines }) => lines)));
  return { count, dashed: middle(pieces.map(({ most }) => most)) < WHOLE && turning(grid) };
}

/** A stripe that moves across by more than this part of the width from one end of a piece of it to the other winds round. Assumed. */
const WINDS = 0.25;

/**
 * Whether what comes and goes winds round the conductor, as a spiral of wide pitch does, or keeps its place, as dashes do:
 * how far each unbroken piece of it moves across, at the middle of all pieces.
 */
export function winds({ length, across, cells }: TwoColorGrid): boolean {
  const moves: number[] = [];
  let run: number[] = [];
  for (let i = 0; i <= length; i++) {
    const at = i < length ? middleOfRow(cells, i * across, across) : null;
    if (at !== null) {
      run.push(at);
      continue;
    }
    const part = Math.floor(run.length / 3);
    if (part > 0) moves.push(Math.abs(mean(run.slice(-part)) - mean(run.slice(0, part))));
    run = [];
  }
  moves.sort((p, q) => p - q);
  return moves.length > 0 && moves[moves.length >> 1]! > WINDS * across;
}

/** Where across the second color lies in a row; null where the row has none, or one stray cell. */
function middleOfRow(cells: Uint8Array, from: number, across: number): number | null {
  let [sum, n] = [0, 0];
  for (let j = 0; j < across; j++)
    if (cells[from + j] === 2) {
      sum += j;
      n++;
    }
  return n > 1 ? sum / n : null;
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

function turning(grid: TwoColorGrid): boolean {
  const least = Math.max(2, Math.round(CLOSEST * grid.perDiameter));
  if (least > grid.length / 2) return false;
  const shifted = agreementOf(grid);
  for (let turn = least; turn <= grid.length / 2; turn++) {
    const agreed = shifted(turn);
    if (agreed >= AGREED && shifted(turn >> 1) <= HALF_WAY * agreed) return true;
  }
  return false;
}

/**
 * Agreement of a grid with itself so many rows on. All distances are tried, so cells are compared 32 at a time: bit k of
 * `body` and of `second` stands for cell k, and rows on means bits on. A word more than needed, of zeros, ends each.
 */
export function agreementOf({ length, across, cells }: TwoColorGrid): (rows: number) => number {
  const n = length * across;
  const words = (n + 31) >> 5;
  const body = new Int32Array(words + 1);
  const second = new Int32Array(words + 1);
  for (let k = 0; k < n; k++) {
    if (cells[k] === 1) body[k >> 5]! |= 1 << (k & 31);
    else if (cells[k] === 2) second[k >> 5]! |= 1 << (k & 31);
  }
  return (rows) => {
    const bits = rows * across;
    const [whole, rest] = [bits >> 5, bits & 31];
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    for (let w = 0, v = whole; v < words; w++, v++) {
      const p = body[w]!;
      const q = second[w]!;
      if ((p | q) === 0) continue;
      // The next word's first bits follow this one's last; shifted in two steps, as a shift by 32 is none.
      const bodyOn = (body[v]! >>> rest) | ((body[v + 1]! << 1) << (31 - rest));
      const secondOn = (second[v]! >>> rest) | ((second[v + 1]! << 1) << (31 - rest));
      a += ones(p & bodyOn);
      b += ones(p & secondOn);
      c += ones(q & bodyOn);
      d += ones(q & secondOn);
    }
    return kappa(a, b, c, d);
  };
}

/** How many bits of a 32-bit word are set: counted in pairs, fours and eights at once. */
function ones(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** Of cells that two say something of: both body, body and second, second and body, both second. 0 where there are none. */
function kappa(a: number, b: number, c: number, d: number): number {
  const n = a + b + c + d;
  if (n === 0) return 0;
  const chance = ((a + b) * (a + c) + (c + d) * (b + d)) / n ** 2;
  return chance < 1 - 1e-9 ? ((a + d) / n - chance) / (1 - chance) : 0;
}
