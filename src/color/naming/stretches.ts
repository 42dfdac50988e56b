import { type ColorName, message, type Ribbon } from '../../flow';
import type { LightPosterior } from '../light/types';
import { type Body, plainRibbonBody, touchedSample } from '../ribbon/body';
import { type Sample, sampleOf } from '../ribbon/samples';
import { featuresOf, luminance, type Rgb } from '../spaces';
import { conformalSet, ranked } from './calibrate';
import { nameInsulations, type RibbonReading } from './name-insulations';
import { blend, eachName, type Names, probabilityOf } from './names';

/** Into how many stretches a ribbon is cut, and the fewest samples along that one may have. */
const STRETCHES = 4;
const SHORTEST = 5;
/** Stretches nearer than this in (a/L, b/L) and stops are shading, dirt and reflections: not worth naming. Assumed. */
const NEAR = { chroma: 0.05, stops: 1.5 };
/** A stretch whose own reading leaves the name of the whole less than this contradicts it. Assumed. */
const EXCLUDED = 0.1;

/** Rows `from` to `to` of a ribbon. */
export function cut(ribbon: Ribbon, from: number, to: number): Ribbon {
  const { across } = ribbon;
  return {
    ...ribbon,
    length: to - from,
    rgb: ribbon.rgb.subarray(from * across * 3, to * across * 3),
    usable: ribbon.usable.subarray(from * across, to * across),
  };
}

function stretchesOf(ribbon: Ribbon): Ribbon[] {
  const count = Math.min(STRETCHES, Math.floor(ribbon.length / SHORTEST));
  if (count < 2) return [];
  const at = (k: number): number => Math.round((k * ribbon.length) / count);
  return Array.from({ length: count }, (_, k) => cut(ribbon, at(k), at(k + 1)));
}

/** Which part of each half is looked at, from the middle (0) to the rim (1): blur mixes the colors at both. Assumed. */
const SIDE = { from: 0.15, to: 0.8 };
/** A narrower conductor has no halves that blur does not mix, pixels. Assumed. */
const LEAST_WIDTH = 8;

/** The left and the right half of a ribbon; none where it is too narrow to have any. */
function sidesOf(ribbon: Ribbon): Ribbon[] {
  const { across, length, widthPx } = ribbon;
  const half = across / 2;
  const count = Math.floor((SIDE.to - SIDE.from) * half);
  if (widthPx < LEAST_WIDTH || count < 2) return [];
  const offset = Math.ceil(SIDE.from * half);
  return [Math.ceil(half) - offset - count, Math.floor(half) + offset].map((first) => {
    const rgb = new Float32Array(length * count * 3);
    const usable = new Uint8Array(length * count);
    for (let row = 0; row < length; row++) {
      const at = row * across + first;
      rgb.set(ribbon.rgb.subarray(at * 3, (at + count) * 3), row * count * 3);
      usable.set(ribbon.usable.subarray(at, at + count), row * count);
    }
    return { ...ribbon, across: count, rgb, usable, widthPx: (widthPx * count) / across };
  });
}

/** Could these be one insulation, lit here and shaded there, by at most so many stops? */
function alike(bodies: readonly Body[], stops: number): boolean {
  const features = bodies.map((b) => featuresOf(...b.rgb));
  return features.every((p) =>
    features.every((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < NEAR.chroma && Math.abs(p[2] - q[2]) < stops),
  );
}

/** The whole's names and those of the contradicting parts, these with a share of the say. */
function mixed(whole: RibbonReading, against: readonly RibbonReading[], share: number): Names {
  const of = (r: RibbonReading, name: ColorName): number => probabilityOf(r.insulation.candidates, name);
  const others = eachName((name) => against.reduce((sum, r) => sum + of(r, name), 0) / against.length);
  return blend(
    eachName((name) => of(whole, name)),
    others,
    share,
  );
}

/** Whether a reading excludes the name of another, and not for its stripe or tape. */
function contradicts(part: RibbonReading, whole: RibbonReading): boolean {
  const { best } = whole.insulation;
  const { best: own, candidates } = part.insulation;
  const left = probabilityOf(candidates, best);
  const marks = [whole.stripe?.name, ...whole.tape.map((t) => t.name)];
  return left < EXCLUDED && !marks.includes(own) && !(best === 'green-yellow' && (own === 'green' || own === 'yellow'));
}

/** A reading that shares its names with those that contradict it. Never surer than before. */
function shared(
  reading: RibbonReading,
  against: readonly RibbonReading[],
  share: number,
  code: 'color.doubt.strays' | 'color.doubt.border',
): RibbonReading {
  const all = ranked(mixed(reading, against, share));
  return {
    ...reading,
    insulation: {
      ...reading.insulation,
      best: all[0]!.name,
      confidence: Math.min(reading.insulation.confidence, all[0]!.probability),
      candidates: all.filter((c) => c.probability >= 0.005),
      set: conformalSet(all),
      doubts: [message(code), ...reading.insulation.doubts],
    },
  };
}

/** Those of the parts of a ribbon that contradict the whole, and how many parts could be read. */
function against(parts: readonly Ribbon[], whole: RibbonReading, light: LightPosterior, stops: number) {
  const read = parts.flatMap((ribbon) => {
    const body = plainRibbonBody(ribbon);
    return body ? [{ ribbon, body }] : [];
  });
  const bodies = read.map((s) => s.body);
  if (read.length < 2 || alike(bodies, stops)) return { readings: [], share: 0 };
  const ribbons = read.map((s) => s.ribbon);
  const readings = nameInsulations(ribbons, light).readings.filter((part) => contradicts(part, whole));
  return { readings, share: readings.length / read.length };
}

/**
 * Readings of whole traces, made less sure where stretches of a trace, or its two sides, contradict each other: such a
 * trace has probably run from one conductor onto another or along the border of two, and is then neither's color for
 * certain. Between the sides a difference of light alone says nothing: a cylinder is shaded across.
 *
 * Takes the ribbons, their readings in the same order, and the light those were made under. Uniform ribbons, short ones and
 * ribbons that could not be read keep their reading. Never makes a name surer.
 */
export function doubtStrays(
  ribbons: readonly Ribbon[],
  readings: readonly RibbonReading[],
  light: LightPosterior,
): RibbonReading[] {
  return readings.map((reading, i) => {
    if (!reading.body) return reading;
    const along = against(stretchesOf(ribbons[i]!), reading, light, NEAR.stops);
    const sides = against(sidesOf(ribbons[i]!), reading, light, Number.POSITIVE_INFINITY);
    const most = sides.share > along.share ? sides : along;
    return most.share > 0 ? shared(reading, most.readings, most.share, 'color.doubt.strays') : reading;
  });
}

/** The say that all readings beside a finger have together against the one under it. Assumed. */
const BESIDE = 0.5;

/**
 * The reading under a finger, made less sure where readings as near to it as a finger is inexact contradict it: the finger
 * lies on a border, and which of the two is meant is not known. `beside` holds every reading tried there. Never makes
 * a name surer.
 */
export function doubtBorder(reading: RibbonReading, beside: readonly RibbonReading[]): RibbonReading {
  const others = reading.body ? beside.filter((r) => r.body && contradicts(r, reading)) : [];
  if (others.length === 0) return reading;
  return shared(reading, others, (BESIDE * others.length) / beside.length, 'color.doubt.border');
}

/** The say that the touched pixels by themselves have against the trace they belong to. Assumed. */
const UNDER = 0.5;

/**
 * The reading of a trace under a finger, made less sure where the touched pixels (`patch`, a ribbon of nothing else),
 * named by themselves, contradict it: the trace has gone to a neighbor, which noise often makes it do. A touched highlight
 * says nothing. Never makes a name surer.
 */
export function doubtElsewhere(reading: RibbonReading, patch: Ribbon, light: LightPosterior): RibbonReading {
  const { body } = reading;
  const touched = body && touchedSample(patch.rgb);
  if (!touched) return reading;
  const one = sampleOf(...body.rgb);
  if (isNear(one, touched) || isHighlightOf(touched, one, light.mean)) return reading;
  const [own] = nameInsulations([patch], light).readings;
  return own?.body && contradicts(own, reading) ? shared(reading, [own], UNDER, 'color.doubt.border') : reading;
}

/** How much light a body itself sends where it shines too, as shares of what it sends elsewhere. Assumed. */
const SHINING = [0.5, 0.75, 1, 1.25] as const;

/** Whether a sample is the body's own light and that of the lamp, mirrored by its surface, on top. */
const isHighlightOf = (touched: Sample, body: Sample, [r, g, b]: Rgb): boolean =>
  SHINING.some((share) => {
    const mirrored = (touched.y - share * body.y) / luminance(r, g, b);
    if (mirrored <= 0) return false;
    const of = (own: number, lamp: number): number => share * own + mirrored * lamp;
    const mixed = sampleOf(of(body.r, r), of(body.g, g), of(body.b, b));
    return Math.hypot(mixed.s - touched.s, mixed.t - touched.t) < NEAR.chroma;
  });

/** Whether two patches of pixels (linear sRGB, 3 values each) could be of one insulation, lit here and shaded there. */
export function alikeToTouch(one: Float32Array, other: Float32Array): boolean {
  const [p, q] = [touchedSample(one), touchedSample(other)];
  if (!p || !q) return true;
  return isNear(p, q);
}

/** No further apart than shading, dirt and reflections put two samples of one insulation. */
function isNear(p: Sample, q: Sample): boolean {
  const stops = Math.abs(Math.log2((p.y + 1e-4) / (q.y + 1e-4)));
  return Math.hypot(p.s - q.s, p.t - q.t) < NEAR.chroma && stops < NEAR.stops;
}
