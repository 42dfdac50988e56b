import { BESIDE, type CloserLook, type FineRibbon, type Point, SAID } from '../../flow';
import type { Field } from '../trace/field';
import type { TracePoint } from '../trace/follow';
import { SaidReader, wireOdds } from './said';
import { noiseInLight, type RibbonQuality, readLinear } from './sample';

/** Cells across, whatever the width: what reads the cells was trained on so many. */
const ACROSS = 12;
const OWN = Array.from({ length: ACROSS }, (_, j) => j);
/** Columns beyond the rims, counted on from the conductor's own. */
const OUTER = Array.from({ length: 2 * BESIDE }, (_, k) => (k < BESIDE ? k - BESIDE : ACROSS + k - BESIDE));
/** Rows at most; a longer conductor gets longer rows. */
const MOST_ALONG = 480;

/** Cells are as large as several pixels where a conductor is wide: that many samples each way then make one, at most. */
const MOST_SAMPLES = 2;
/** A row is not lost because sums of steps come out a little short. */
const ROUNDING = 1e-6;
/** Standard deviation, diameters, over which a trace is evened out: its steps jitter, conductors of that length do not. */
const EVENED = 0.5;

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
export function sampleFine(field: Field, trace: readonly TracePoint[], quality: RibbonQuality): FineRibbon {
  const halves = trace.map((p) => p.halfWidth).sort((p, q) => p - q);
  const widthPx = 2 * (halves[halves.length >> 1] ?? 0);
  const points = evened(trace, EVENED * widthPx);
  const arc = arcOf(points);
  const total = arc[arc.length - 1] ?? 0;
  const stepPx = Math.max(widthPx / ACROSS, 0.25, total / MOST_ALONG);
  const length = points.length > 1 ? Math.max(1, Math.floor(total / stepPx + ROUNDING)) : 0;
  const sampler: Sampler = {
    field,
    stepPx,
    each: Math.min(MOST_SAMPLES, Math.max(1, Math.round(widthPx / ACROSS))),
  };
  const places: Place[] = [];
  let from = 1;
  for (let i = 0; i < length; i++) {
    const s = (i + 0.5) * stepPx;
    while (from < points.length - 1 && arc[from]! < s) from++;
    places.push(placeBetween(points, arc, from, s));
  }
  let looked: CloserLook | undefined;
  return {
    length,
    across: ACROSS,
    stepPx,
    widthPx,
    ...sampleRows(sampler, places, OWN),
    centers: places.map(({ at }) => at),
    widths: Float32Array.from(places, ({ halfWidth }) => 2 * halfWidth),
    seen: Uint8Array.from(places, ({ seen }) => Number(seen)),
    closer: () => {
      looked ??= lookCloser(sampler, places, points);
      return looked;
    },
    noise: noiseInLight(quality),
    blurPx: quality.blurPx,
  };
}

function lookCloser(sampler: Sampler, places: readonly Place[], points: readonly TracePoint[]): CloserLook {
  const { field } = sampler;
  const said = field.planes.learned ? new SaidReader(field, points) : null;
  return {
    said: said && saidOf(said, places, OWN),
    beside: { ...sampleRows(sampler, places, OUTER), said: said && saidOf(said, places, OUTER) },
  };
}

/** What the cells of a ribbon are read from. */
interface Sampler {
  readonly field: Field;
  readonly stepPx: number;
  /** Samples each way of one cell. */
  readonly each: number;
}

/** Reads the cells of `columns`, of which those from 0 to ACROSS - 1 lie from rim to rim. */
function sampleRows(
  sampler: Sampler,
  places: readonly Place[],
  columns: readonly number[],
): Pick<FineRibbon, 'rgb' | 'usable' | 'wire'> {
  const { field } = sampler;
  const cells = places.length * columns.length;
  const rgb = new Float32Array(cells * 3);
  const usable = new Uint8Array(cells);
  const wire = field.planes.learned ? new Float32Array(cells) : null;
  for (let i = 0, cell = 0; i < places.length; i++) {
    const { at, normal, halfWidth } = places[i]!;
    const across = (2 * halfWidth) / ACROSS;
    for (let k = 0; k < columns.length; k++, cell++) {
      const offset = offsetOf(columns[k]!, halfWidth);
      const x = at[0] + normal[0] * offset;
      const y = at[1] + normal[1] * offset;
      usable[cell] = sampleCell(sampler, x, y, normal[0], normal[1], across, rgb, cell * 3);
      if (wire) wire[cell] = wireOdds(field, x, y);
    }
  }
  return { rgb, usable, wire };
}

/** What is said of the same cells. */
function saidOf(said: SaidReader, places: readonly Place[], columns: readonly number[]): Float32Array {
  const out = new Float32Array(places.length * columns.length * SAID.length);
  for (let i = 0, to = 0; i < places.length; i++) {
    const { at, normal, halfWidth } = places[i]!;
    const [nx, ny] = normal;
    for (let k = 0; k < columns.length; k++, to += SAID.length) {
      const offset = offsetOf(columns[k]!, halfWidth);
      said.read(at[0] + nx * offset, at[1] + ny * offset, ny, -nx, halfWidth, out, to);
    }
  }
  return out;
}

/** Pixels from the middle of a conductor to that of a column. */
const offsetOf = (column: number, halfWidth: number): number => ((2 * (column + 0.5)) / ACROSS - 1) * halfWidth;

/** Means over one cell around (x, y), `across` pixels wide along the normal; 0 where one of its samples can't be relied on. */
function sampleCell(
  { field: { raster }, stepPx, each }: Sampler,
  x: number,
  y: number,
  nx: number,
  ny: number,
  across: number,
  rgb: Float32Array,
  at: number,
): 0 | 1 {
  if (each === 1) return readLinear(raster, x, y, rgb, at);
  let usable: 0 | 1 = 1;
  for (let u = 0; u < each; u++)
    for (let v = 0; v < each; v++) {
      const aside = ((u + 0.5) / each - 0.5) * across;
      const ahead = ((v + 0.5) / each - 0.5) * stepPx;
      part.fill(0);
      if (readLinear(raster, x + nx * aside + ny * ahead, y + ny * aside - nx * ahead, part, 0) === 0) usable = 0;
      for (let c = 0; c < 3; c++) rgb[at + c]! += part[c]! / (each * each);
    }
  return usable;
}

/** One sample. */
const part = new Float32Array(3);

/**
 * A trace whose middles and widths are those of a line fitted to its neighborhood, which weighs like a normal curve of `sigma`
 * pixels. What was not seen is a guess and counts little.
 */
function evened(points: readonly TracePoint[], sigma: number): TracePoint[] {
  const arc = arcOf(points);
  let first = 0;
  return points.map((p, k) => {
    while (arc[k]! - arc[first]! > 2.5 * sigma) first++;
    const [x, y, half] = [new LineFit(), new LineFit(), new LineFit()];
    for (let m = first; m < points.length && arc[m]! - arc[k]! <= 2.5 * sigma; m++) {
      const q = points[m]!;
      const d = arc[m]! - arc[k]!;
      const weight = Math.exp(-0.5 * (d / sigma) ** 2) * (q.seen ? 1 : UNSEEN_WEIGHT);
      x.add(d, q.at[0], weight);
      y.add(d, q.at[1], weight);
      half.add(d, q.halfWidth, weight);
    }
    return { ...p, at: [x.middle(), y.middle()] as const, halfWidth: Math.max(1, half.middle()) };
  });
}

const UNSEEN_WEIGHT = 0.2;

/** Weighted least squares of a line. */
class LineFit {
  private n = 0;
  private d = 0;
  private dd = 0;
  private v = 0;
  private dv = 0;

  add(d: number, v: number, weight: number): void {
    this.n += weight;
    this.d += weight * d;
    this.dd += weight * d * d;
    this.v += weight * v;
    this.dv += weight * d * v;
  }

  /** The line's value at 0; the mean where all lies at one place. */
  middle(): number {
    const spread = this.n * this.dd - this.d * this.d;
    return spread > 1e-6 * this.n * this.n ? (this.dd * this.v - this.d * this.dv) / spread : this.v / this.n;
  }
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
