import type { Conductor, FineRibbon, Point, Raster, Ribbon } from '../flow';
import { sampleFine } from './ribbon/fine';
import { type RibbonQuality, rowsOf, sampleRibbon } from './ribbon/sample';
import type { Segmentation } from './segmenter';
import { colorAlong } from './trace/color';
import { type TracedConductor, toConductor } from './trace/conductor';
import { withCrossings } from './trace/crossings';
import { type Field, makeField } from './trace/field';
import { summarize, traceAll } from './trace/instances';
import { linkTraces } from './trace/link';
import { outlines } from './trace/outline';
import { pruneTraces } from './trace/prune';
import { medianLook, stretchNear, traceAlong, traceAtPoint } from './trace/tap';

/** Less likely than this to be a conductor is not offered. */
const LEAST_PRESENCE = 0.5;
/** More than this many in one photo is clutter; the surest are kept. */
const MOST = 300;

/** A photo segmented and ready to be traced again and again (taps, strokes) without segmenting anew. */
export interface Traceable {
  readonly raster: Raster;
  readonly field: Field;
}

export const makeTraceable = (raster: Raster, planes: Segmentation): Traceable => ({
  raster,
  field: makeField(planes, raster),
});

/** Every conductor that can be found with nobody pointing, surest and longest first. */
export function findConductors({ field }: Traceable): TracedConductor[] {
  const linked = linkTraces(pruneTraces(field, traceAll(field, 2000)));
  const long = linked.filter(({ trace }) => trace.lengthPx >= field.shortest * 2 * trace.halfWidth);
  const found = long
    .map(({ trace, linkProbability }) => ({ traced: toConductor(field, trace, 'found'), linkProbability }))
    .filter(({ traced }) => traced.conductor.presence >= LEAST_PRESENCE)
    .slice(0, MOST);
  const unique = uniquely(found.map((one) => one.traced));
  return withCrossings(unique, new Map(unique.map((one, k) => [one, found[k]!.linkProbability])));
}

/** Ids are made of places; two traces through the same three places get a counter. */
function uniquely(traced: readonly TracedConductor[]): TracedConductor[] {
  const times = new Map<string, number>();
  return traced.map((one) => {
    const { id } = one.conductor;
    const n = (times.get(id) ?? 0) + 1;
    times.set(id, n);
    return n === 1 ? one : { ...one, conductor: { ...one.conductor, id: `${id}.${n}` } };
  });
}

/** The conductor under a point, or undefined where the point lies outside the picture. */
export function traceTap({ field }: Traceable, at: Point): TracedConductor | undefined {
  const trace = traceAtPoint(field, at);
  return trace && toConductor(field, trace, 'tapped');
}

/** The conductor along a drawn stroke, or undefined where fewer than two of its points lie in the picture. */
export function traceStroke({ field }: Traceable, stroke: readonly Point[]): TracedConductor | undefined {
  const trace = traceAlong(field, stroke);
  return trace && toConductor(field, trace, 'drawn');
}

/** Ribbon of a whole conductor. */
export const ribbonOf = ({ raster }: Traceable, { trace }: TracedConductor, quality: RibbonQuality): Ribbon =>
  sampleRibbon(raster, trace.points, quality);

/**
 * The conductor with its outlines around those rows of `ribbonOf` alone that are its own (1). Its line stays: it tells which
 * way was followed. With no row of its own it keeps its outlines.
 */
export function claiming({ conductor, trace }: TracedConductor, own: Uint8Array): Conductor {
  const rows = rowsOf(trace.points);
  let row = 0;
  const points = trace.points.map((p, k) => {
    // A step without a row is like the row before or after it, whichever is nearer.
    while (row + 1 < rows.length && Math.abs(rows[row + 1]! - k) <= Math.abs(rows[row]! - k)) row++;
    return own[row] ? p : { ...p, seen: false };
  });
  const rings = outlines(points);
  return rings.length > 0 ? { ...conductor, outlines: rings } : conductor;
}

/** A whole conductor straightened finely, for what lies on it. */
export const fineRibbonOf = ({ field }: Traceable, { trace }: TracedConductor, quality: RibbonQuality): FineRibbon =>
  sampleFine(field, trace.points, quality);

/** A finely straightened stretch about as long as what `ribbonNear` gives. */
export const fineRibbonNear = (
  { field }: Traceable,
  { trace }: TracedConductor,
  at: Point,
  quality: RibbonQuality,
): FineRibbon => sampleFine(field, stretchNear(trace, at, 24 * trace.halfWidth), quality);

/** Ribbon of the stretch within twelve widths of a point: what the finger asks about, less what may be another's. */
export const ribbonNear = (
  { raster }: Traceable,
  { trace }: TracedConductor,
  at: Point,
  quality: RibbonQuality,
): Ribbon => sampleRibbon(raster, stretchNear(trace, at, 24 * trace.halfWidth), quality);

/** A conductor whose trace is not at hand (edited, or from a kept record), made traceable from its center line. */
export function retrace({ field }: Traceable, conductor: Conductor): TracedConductor {
  const halfWidth = conductor.widthPx / 2;
  const points = conductor.centerline.map((at) => ({ at, halfWidth, seen: true, wire: 1 }));
  const middle = conductor.centerline[conductor.centerline.length >> 1] ?? [0, 0];
  return { conductor, trace: summarize(points, ['lost', 'lost'], medianLook(field, middle)) };
}

/** Mean log-probability over COLOR_NAMES that the segmenter gave along a conductor, or null where it reads no colors. */
export const networkColorOf = ({ field }: Traceable, { trace }: TracedConductor): Float32Array | null =>
  colorAlong(field, trace.points);
