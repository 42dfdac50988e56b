import type { FineRibbon, StripeLayout } from '../../flow';
import { type Cells, cellsOf } from './cells';
import { MARK_CALIBRATION } from './mark-calibration';
import { CELL_KINDS, type CellKind, type CellReading, LAYOUT_KINDS, readCells, readerInput } from './reader';
import { READER_SHAPES } from './reader-net';
import { linesAlong, recurs, type TwoColorGrid, twoColorGrid, winds } from './recurs';

/** A stretch of rows that carries something all the way over the seen side. */
export interface MarkedRows {
  /** First row and one past the last. */
  readonly from: number;
  readonly to: number;
  /** Probability that it is what it is taken for. */
  readonly confidence: number;
  /** Share of the seen side, from rim to rim, that it covers: near 1 for what goes round. */
  readonly cover: number;
  readonly cells: readonly number[];
}

export interface StripeMark {
  readonly layout: StripeLayout;
  /** Probability that there is a stripe, whatever its color. */
  readonly confidence: number;
  readonly cells: readonly number[];
  /** Share of what is body or stripe that is stripe. */
  readonly share: number;
  /** It goes on along the conductor as a stripe does. */
  readonly recurs: boolean;
  /** Of what runs along: how many side by side, and whether in dashes. */
  readonly lines: ReturnType<typeof linesAlong>;
}

/** What lies on a conductor. */
export interface RibbonMarks {
  readonly cells: Cells;
  readonly tapes: readonly MarkedRows[];
  readonly bare: readonly MarkedRows[];
  /** Rows that carry legend print: first, and one past the last. */
  readonly print: readonly { readonly from: number; readonly to: number }[];
  readonly stripe: StripeMark | null;
  /** Probability that the seen side carries a stripe. */
  readonly striped: number;
  /** Cells of the body's own color. */
  readonly body: readonly number[];
  /** These, and what looks a little like tape: where a conductor fades, its ends do. */
  readonly bodyOrTape: readonly number[];
}

/** Diameters: shorter runs are glints, gaps below are bridged. Assumed. */
const SHORTEST = 0.35;
const BRIDGED = 0.25;
/** A run begins and ends where at least this much of a row is it. */
const ROW_SHARE = 0.5;
const LEAST_CELLS = 6;
/**
 * So sure a reader is believed where too little is in sight to see a stripe go on. Set on 72 rendered scenes for less than
 * one wrong stripe in a hundred plain conductors.
 */
const SURE_ALONE = 0.7;

/** Reads what lies along a ribbon: tape, bare metal, a stripe, and where the body itself shows. */
export function readMarks(ribbon: FineRibbon): RibbonMarks {
  const cells = cellsOf(ribbon);
  const { reading, striped, rows } = readInTurn(ribbon, cells);
  const tapes = runsOf(reading, rows.tape, cells, 'tape');
  const bare = runsOf(reading, rows.bare, cells, 'bare');
  const marked = new Set([...tapes, ...bare].flatMap((run) => [...run.cells]));
  const ofKind = (kind: CellKind, least: number): number[] => {
    const at = CELL_KINDS.indexOf(kind);
    const list: number[] = [];
    for (let k = 0; k < cells.ok.length; k++)
      if (cells.ok[k] && !marked.has(k) && reading.kinds[k * CELL_KINDS.length + at]! > least) list.push(k);
    return list;
  };
  const stripeCells = ofKind('stripe', 0.5);
  const body = ofKind('body', 0.5);
  const stripe = stripeCells.length >= LEAST_CELLS ? stripeOf(ribbon, reading, striped, body, stripeCells) : null;
  const print = printed(ofKind('print', 0.5), cells.across);
  return { cells, tapes, bare, print, stripe, striped, body, bodyOrTape: bodyOrTape(reading, cells) };
}

function stripeOf(
  ribbon: FineRibbon,
  { layout }: CellReading,
  striped: number,
  body: readonly number[],
  cells: readonly number[],
): StripeMark {
  const grid = gridOf(ribbon, body, cells);
  const lines = linesAlong(grid);
  return {
    layout: layoutOf(layout, grid, lines),
    confidence: striped,
    cells,
    share: cells.length / (cells.length + body.length),
    recurs: striped > SURE_ALONE || recurs(grid),
    lines,
  };
}

/**
 * The two other readers cost several times as much. The outer one reads what the narrow one would not call plain: log-odds of a
 * stripe from `odds` on, or a row with more than `row` of tape or bare metal; the wide one what the outer one would not either.
 * Of 72 rendered scenes with marks on a third of the conductors 28 and 19 % pass; of the stripes that would be told, nearly all.
 */
const DOUBTED = { odds: 0, row: 0.4 };

/** How much of each row is tape, and bare metal; see `rowsOf`. */
type MarkedShares = Readonly<Record<'tape' | 'bare', readonly number[]>>;

/** What lies on each cell and row, and the probability that the seen side carries a stripe. */
interface Read {
  readonly reading: CellReading;
  readonly striped: number;
  readonly rows: MarkedShares;
}

/** Reads with as many readers as it takes to call a conductor plain; two that have to be asked count alike. */
function readInTurn(ribbon: FineRibbon, cells: Cells): Read {
  const input = readerInput(ribbon, cells, READER_SHAPES.narrow);
  const narrow = readCells(input, cells, 'narrow');
  const quick = readOf(narrow, stripeOdds(narrow.layout), MARK_CALIBRATION.narrowStripe, cells);
  if (!quick.doubted) return quick;
  const outer = readCells(readerInput(ribbon, cells, READER_SHAPES.outer), cells, 'outer');
  const outerOdds = stripeOdds(outer.layout);
  const closer = readOf(outer, outerOdds, MARK_CALIBRATION.outerStripe, cells);
  if (!closer.doubted) return closer;
  const wide = readCells(input, cells, 'wide');
  const both: CellReading = {
    kinds: outer.kinds.map((p, k) => (p + wide.kinds[k]!) / 2),
    layout: outer.layout.map((score, k) => (score + wide.layout[k]!) / 2),
  };
  return readOf(both, (outerOdds + stripeOdds(wide.layout)) / 2, MARK_CALIBRATION.stripe, cells);
}

/** What a reading with these log-odds of a stripe says, and whether it would not call the conductor plain. */
function readOf(
  reading: CellReading,
  odds: number,
  calibration: Calibration,
  cells: Cells,
): Read & { readonly doubted: boolean } {
  const rows = { tape: rowsOf(reading, cells, 'tape'), bare: rowsOf(reading, cells, 'bare') };
  const marked = [rows.tape, rows.bare].some((shares) => shares.some((share) => share > DOUBTED.row));
  return { reading, rows, striped: calibrated(odds, calibration), doubted: marked || odds >= DOUBTED.odds };
}

/** Letters stand apart by less than this, and a word is longer, diameters; a row of print has some cells. Assumed. */
const WORD_GAP = 1.5;
const SHORTEST_WORD = 1;
const PRINT_CELLS = 12;

function printed(cells: readonly number[], across: number): { from: number; to: number }[] {
  return bridged(
    cells.map((k) => Math.floor(k / across)),
    WORD_GAP * across,
  )
    .filter((run) => run.to - run.from >= SHORTEST_WORD * across && run.count >= PRINT_CELLS)
    .map(({ from, to }) => ({ from, to }));
}

/** Runs of rows, which come in order; gaps of up to `gap` are bridged. `count`: how often the rows of a run were named. */
function bridged(rows: readonly number[], gap: number): { from: number; to: number; count: number }[] {
  const runs: { from: number; to: number; count: number }[] = [];
  for (const row of rows) {
    const last = runs[runs.length - 1];
    if (last && row - last.to <= gap) {
      last.to = row + 1;
      last.count++;
    } else runs.push({ from: row, to: row + 1, count: 1 });
  }
  return runs;
}

function gridOf(ribbon: FineRibbon, body: readonly number[], stripe: readonly number[]): TwoColorGrid {
  const cells = new Uint8Array(ribbon.length * ribbon.across);
  for (const k of body) cells[k] = 1;
  for (const k of stripe) cells[k] = 2;
  return twoColorGrid(ribbon, cells);
}

function bodyOrTape({ kinds }: CellReading, { ok }: Cells): number[] {
  const [body, tape] = [CELL_KINDS.indexOf('body'), CELL_KINDS.indexOf('tape')];
  const list: number[] = [];
  for (let k = 0, at = 0; k < ok.length; k++, at += CELL_KINDS.length)
    if (ok[k] && kinds[at + body]! + kinds[at + tape]! > 0.5) list.push(k);
  return list;
}

/** Log-odds of any stripe on the seen side, as the reader has them. */
function stripeOdds(layout: readonly number[]): number {
  const top = Math.max(...layout);
  const rest = layout.slice(1).reduce((sum, v) => sum + Math.exp(v - top), 0);
  return Math.log(rest) - (layout[0]! - top);
}

interface Calibration {
  readonly scale: number;
  readonly shift: number;
}

/** The probability that log-odds of the reader stand for. */
const calibrated = (odds: number, { scale, shift }: Calibration): number => 1 / (1 + Math.exp(-(scale * odds + shift)));

/** The likeliest layout; what is read as a line along, but comes, winds round and goes, is a spiral of wide pitch. */
function layoutOf(layout: readonly number[], grid: TwoColorGrid, { dashed }: StripeMark['lines']): StripeLayout {
  let best: StripeLayout = 'along';
  let most = Number.NEGATIVE_INFINITY;
  LAYOUT_KINDS.forEach((kind, k) => {
    if (kind !== 'plain' && layout[k]! > most) {
      most = layout[k]!;
      best = kind;
    }
  });
  return best === 'along' && dashed && winds(grid) ? 'spiral' : best;
}

/** How much of each row, from rim to rim, is of a kind; NaN where too little was seen. */
function rowsOf({ kinds }: CellReading, { length, across, ok }: Cells, kind: CellKind): number[] {
  const at = CELL_KINDS.indexOf(kind);
  const rows: number[] = [];
  for (let i = 0; i < length; i++) {
    let sum = 0;
    let seen = 0;
    for (let j = 1; j < across - 1; j++) {
      const cell = i * across + j;
      if (!ok[cell]) continue;
      sum += kinds[cell * CELL_KINDS.length + at]!;
      seen++;
    }
    rows.push(seen >= 3 ? sum / seen : Number.NaN);
  }
  return rows;
}

function runsOf(reading: CellReading, rows: readonly number[], cells: Cells, kind: keyof MarkedShares): MarkedRows[] {
  const { across, ok } = cells;
  const at = CELL_KINDS.indexOf(kind);
  const p = (i: number, j: number): number => reading.kinds[(i * across + j) * CELL_KINDS.length + at]!;
  const gap = Math.max(1, Math.round(BRIDGED * across));
  const runs = bridged(
    rows.flatMap((v, i) => (v > ROW_SHARE ? i : [])),
    gap,
  );
  return runs
    .filter((run) => run.to - run.from >= SHORTEST * across)
    .map(({ from, to }) => {
      const own: number[] = [];
      let seen = 0;
      let on = 0;
      let sum = 0;
      for (let i = from; i < to; i++)
        for (let j = 0; j < across; j++) {
          const k = i * across + j;
          if (!ok[k]) continue;
          const v = p(i, j);
          if (j > 0 && j < across - 1) {
            seen++;
            sum += v;
            if (v > ROW_SHARE) on++;
          }
          if (v > ROW_SHARE) own.push(k);
        }
      const mean = Math.min(0.995, Math.max(0.005, sum / Math.max(1, seen)));
      const confidence = calibrated(Math.log(mean / (1 - mean)), MARK_CALIBRATION[kind]);
      return { from, to, confidence, cover: seen ? on / seen : 0, cells: own };
    });
}
