import type { FineRibbon, Point, Ribbon } from '../../flow';
import { type Body, plainBodyOf, ribbonBody } from './body';
import { type FadedRows, fadedRows } from './fading';
import { type MarkedRows, type RibbonMarks, readMarks } from './marks';
import { type Sample, sampleOf } from './samples';
import { mayBeGreenYellow, splitColors, type TwoColors, underFinger } from './two-colors';

/** One thing on a conductor with the color it has. */
export interface MarkedBody<Mark> {
  readonly mark: Mark;
  readonly body: Body;
}

/** Everything that has a color on one conductor, before any name is given. */
export interface Sight {
  /** The insulation's own color; null when nothing could be read. */
  readonly base: Body | null;
  /** A second color found by color alone, where the finer look told nothing. */
  readonly split: TwoColors | null;
  /** Whether the finer look speaks for a stripe too; without it a split of colors is as often dirt, print or a neighbor. */
  readonly backed: boolean;
  readonly stripe: MarkedBody<NonNullable<RibbonMarks['stripe']>> | null;
  readonly tapes: readonly MarkedBody<MarkedRows>[];
  readonly bare: readonly MarkedBody<MarkedRows>[];
  /** Which of `tapes` lies under the finger; -1 for none. */
  readonly touchedTape: number;
  /** No insulation shows beside the tape. */
  readonly allTape: boolean;
  readonly marks: RibbonMarks | null;
  /** How the body fades along the conductor; null where it does not, or was not looked at. */
  readonly faded: FadedRows | null;
}

export interface Finger {
  /** Pixels under it, linear sRGB. */
  readonly touched: Sample;
  readonly at: Point | null;
}

/** Less probable marks are not told. */
export const TOLD = { tape: 0.5, bare: 0.5, stripe: 0.5 };
/**
 * What the reader must say for a split of colors to be told as a stripe: a probability above this, or this many cells
 * that it takes for stripe, as a number and as a share. On rendered conductors that it was not trained on no plain one
 * reached either (calibrate.py's scenes).
 */
const BACKING = { striped: 0.15, cells: 150, share: 0.05 };
/** Fewer cells than this do not speak for a color. */
const LEAST_CELLS = 16;
/** A finger this far (OKLab saturation) from the body lies on something else than what was read. Assumed. */
const ELSEWHERE = 0.12;

/** Pixels: on thinner conductors nothing along them can be told apart. */
const LEAST_WIDTH = 6;

/** Looks at a conductor coarsely and, where it is at hand, finely. */
export function sightOf(ribbon: Ribbon, fine: FineRibbon | null, finger: Finger | null): Sight {
  const marks = fine && fine.length > 0 && fine.widthPx >= LEAST_WIDTH ? readMarks(fine) : null;
  const seen = fine && marks ? withMarks(ribbon, fine, marks, finger) : null;
  const sight = seen ?? colorsAlone(ribbon, finger, marks);
  return fine && marks ? cleanest(sight, fine, marks, finger) : sight;
}

/**
 * Where a conductor fades along its length, its cleanest stretch speaks for the insulation. Not where a finger points at a
 * place, nor where two colors were split over the whole length.
 */
function cleanest(sight: Sight, fine: FineRibbon, marks: RibbonMarks, finger: Finger | null): Sight {
  const told = [...sight.tapes, ...sight.bare].map(({ mark }) => mark);
  const faded = fadedRows(marks, told);
  if (!faded || finger || sight.split) return { ...sight, faded };
  return { ...sight, faded, base: bodyOfCells(fine, faded.cells) ?? sight.base };
}

function colorsAlone(ribbon: Ribbon, finger: Finger | null, marks: RibbonMarks | null): Sight {
  const found = splitColors(ribbon);
  const split = found && finger ? underFinger(found, finger.touched) : found;
  const base = split ? split.base : ribbonBody(ribbon, finger?.touched);
  // Yellow on green, or green on yellow, is never passed over: it may be a protective conductor.
  const backed = !marks || backs(marks) || (split !== null && mayBeGreenYellow(split));
  return {
    base,
    split,
    backed,
    stripe: null,
    tapes: [],
    bare: [],
    touchedTape: -1,
    allTape: false,
    marks,
    faded: null,
  };
}

function backs({ striped, stripe, cells }: RibbonMarks): boolean {
  const count = stripe?.cells.length ?? 0;
  return striped > BACKING.striped || count >= Math.max(BACKING.cells, BACKING.share * cells.ok.length);
}

/** Null when the marks say nothing, or when the finger lies on something else. */
function withMarks(ribbon: Ribbon, fine: FineRibbon, marks: RibbonMarks, finger: Finger | null): Sight | null {
  const colored = (list: readonly MarkedRows[], least: number): MarkedBody<MarkedRows>[] =>
    list.flatMap((mark) => {
      const body = mark.confidence > least ? bodyOfCells(fine, mark.cells) : null;
      return body ? [{ mark, body }] : [];
    });
  const tapes = colored(marks.tapes, TOLD.tape);
  const bare = colored(marks.bare, TOLD.bare);
  const second = marks.stripe && marks.stripe.confidence > TOLD.stripe ? bodyOfCells(fine, marks.stripe.cells) : null;
  const stripe = second && marks.stripe ? { mark: marks.stripe, body: second } : null;
  if (tapes.length + bare.length === 0 && !stripe) return null;
  const touchedTape = finger?.at ? rowsAt(fine, finger.at, tapes) : -1;
  const own = bodyOfCells(fine, marks.body);
  if (own && finger && touchedTape < 0 && away(own, finger.touched) > ELSEWHERE) {
    if (!stripe || away(stripe.body, finger.touched) > ELSEWHERE) return null;
  }
  const allTape = own === null && tapes.length > 0;
  const base = own ?? ribbonBody(ribbon, finger?.touched);
  return { base, split: null, backed: true, stripe, tapes, bare, touchedTape, allTape, marks, faded: null };
}

const away = (body: Body, touched: Sample): number => {
  const p = sampleOf(...body.rgb);
  return Math.hypot(p.s - touched.s, p.t - touched.t);
};

/** Which marked stretch lies under a point, by the row whose middle is nearest; -1 for none. */
function rowsAt(fine: FineRibbon, at: Point, list: readonly MarkedBody<MarkedRows>[]): number {
  let row = 0;
  let nearest = Number.POSITIVE_INFINITY;
  fine.centers.forEach((c, i) => {
    const d = Math.hypot(c[0] - at[0], c[1] - at[1]);
    if (d < nearest) {
      nearest = d;
      row = i;
    }
  });
  return list.findIndex(({ mark }) => row >= mark.from && row < mark.to);
}

/** Color of a list of cells, the rim columns left out where enough others are there. */
function bodyOfCells(fine: FineRibbon, cells: readonly number[]): Body | null {
  const inner = cells.filter((k) => {
    const j = k % fine.across;
    return j > 1 && j < fine.across - 2;
  });
  const kept = inner.length >= LEAST_CELLS ? inner : cells;
  if (kept.length < LEAST_CELLS / 2) return null;
  const step = Math.max(1, Math.floor(kept.length / 600));
  const samples: Sample[] = [];
  for (let n = 0; n < kept.length; n += step) {
    const k = kept[n]!;
    samples.push(sampleOf(fine.rgb[k * 3]!, fine.rgb[k * 3 + 1]!, fine.rgb[k * 3 + 2]!));
  }
  return plainBodyOf(samples, samples.length, fine);
}
