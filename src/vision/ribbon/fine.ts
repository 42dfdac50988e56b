import { BESIDE, type BesideRibbon, type FineRibbon, type Point } from '../../flow';
import { type Field, indexAt, inField } from '../trace/field';
import type { TracePoint } from '../trace/follow';
import { noiseInLight, type RibbonQuality, readLinear } from './sample';

/** Cells across, whatever the width: what reads the cells was trained on so many. */
const ACROSS = 12;
const OWN = Array.from({ length: ACROSS }, (_, j) => j);
/** Columns beyond the rims, counted on from the conductor's own. */
const OUTER = Array.from({ length: 2 * BESIDE }, (_, k) => (k < BESIDE ? k - BESIDE : ACROSS + k - BESIDE));
/** Rows at most; a longer conductor gets longer rows. */
const MOST_ALONG = 480;

/** A place along a trace. */
interface Place {
  readonly at: Point;
  readonly halfWidth: number;
  readonly seen: boolean;
  /** Unit normal. */
  readonly normal: Point;
}

/**
 * Straightens a whole trace finely, with what a learned segmentation says of each cell. Rows that tracing took for hidden
 * are sampled like all others: half of the rings and tapes of rendered conductors lay in such rows, so the reader has to
 * see them to tell them from what really lies across.
 */
export function sampleFine(
  field: Field,
  raster: Parameters<typeof readLinear>[0],
  points: readonly TracePoint[],
  quality: RibbonQuality,
): FineRibbon {
  const halves = points.map((p) => p.halfWidth).sort((p, q) => p - q);
  const widthPx = 2 * (halves[halves.length >> 1] ?? 0);
  const arc = arcOf(points);
  const total = arc[arc.length - 1] ?? 0;
  const stepPx = Math.max(widthPx / ACROSS, 0.25, total / MOST_ALONG);
  const length = points.length > 1 ? Math.max(1, Math.floor(total / stepPx)) : 0;
  const own = roomFor(length * ACROSS, field);
  const beside = roomFor(length * OUTER.length, field);
  const seen = new Uint8Array(length);
  const centers: Point[] = [];
  let from = 1;
  for (let i = 0; i < length; i++) {
    const s = (i + 0.5) * stepPx;
    while (from < points.length - 1 && arc[from]! < s) from++;
    const place = placeBetween(points, arc, from, s);
    centers.push(place.at);
    seen[i] = place.seen ? 1 : 0;
    sampleRow(field, raster, place, i, OWN, own);
    sampleRow(field, raster, place, i, OUTER, beside);
  }
  return {
    length,
    across: ACROSS,
    stepPx,
    widthPx,
    ...own,
    centers,
    seen,
    beside,
    noise: noiseInLight(quality),
    blurPx: quality.blurPx,
  };
}

const roomFor = (cells: number, { planes }: Field): BesideRibbon => ({
  rgb: new Float32Array(cells * 3),
  usable: new Uint8Array(cells),
  wire: planes.learned ? new Float32Array(cells) : null,
});

/** Reads the cells of one row in `columns`, of which those from 0 to ACROSS - 1 lie from rim to rim. */
function sampleRow(
  field: Field,
  raster: Parameters<typeof readLinear>[0],
  { at, normal, halfWidth }: Place,
  row: number,
  columns: readonly number[],
  { rgb, usable, wire }: BesideRibbon,
): void {
  columns.forEach((column, k) => {
    const offset = ((2 * (column + 0.5)) / ACROSS - 1) * halfWidth;
    const x = at[0] + normal[0] * offset;
    const y = at[1] + normal[1] * offset;
    const cell = row * columns.length + k;
    usable[cell] = readLinear(raster, x, y, rgb, cell * 3);
    if (wire && inField(field, x, y)) wire[cell] = field.planes.wire[indexAt(field, x, y)]!;
  });
}

/** Distance along the trace at each point, pixels. */
function arcOf(points: readonly TracePoint[]): number[] {
  const arc = [0];
  for (let k = 1; k < points.length; k++) {
    const [a, b] = [points[k - 1]!.at, points[k]!.at];
    arc.push(arc[k - 1]! + Math.hypot(b[0] - a[0], b[1] - a[1]));
  }
  return arc;
}

/** Directions are taken over this many steps to either side: a single step's jitter would shear the ribbon. */
const SMOOTH = 2;

function placeBetween(points: readonly TracePoint[], arc: readonly number[], k: number, s: number): Place {
  const [p, q] = [points[k - 1]!, points[k]!];
  const t = Math.min(1, Math.max(0, (s - arc[k - 1]!) / Math.max(1e-6, arc[k]! - arc[k - 1]!)));
  const a = points[Math.max(0, k - 1 - SMOOTH)]!.at;
  const b = points[Math.min(points.length - 1, k + SMOOTH)]!.at;
  const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return {
    at: [p.at[0] + t * (q.at[0] - p.at[0]), p.at[1] + t * (q.at[1] - p.at[1])],
    halfWidth: p.halfWidth + t * (q.halfWidth - p.halfWidth),
    seen: p.seen && q.seen,
    normal: [-(b[1] - a[1]) / size, (b[0] - a[0]) / size],
  };
}
