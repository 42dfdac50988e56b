import { COLOR_NAMES, type ColorName, message, type Ribbon } from '../../flow';
import type { LightPosterior } from '../light/types';
import { type Body, ribbonBody } from '../ribbon/body';
import { featuresOf } from '../spaces';
import { conformalSet, ranked } from './calibrate';
import { nameInsulations, type RibbonReading } from './name-insulations';

/** Into how many stretches a ribbon is cut, and the fewest samples along that one may have. */
const STRETCHES = 4;
const SHORTEST = 5;
/** Stretches nearer than this in (a/L, b/L) and stops are shading, dirt and reflections: not worth naming. Assumed. */
const NEAR = { chroma: 0.05, stops: 1.5 };
/** A stretch whose own reading leaves the name of the whole less than this contradicts it. Assumed. */
const EXCLUDED = 0.1;

/** Rows `from` to `to` of a ribbon. */
function cut(ribbon: Ribbon, from: number, to: number): Ribbon {
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

/** Could these be one insulation, lit here and shaded there? */
function alike(bodies: readonly Body[]): boolean {
  const features = bodies.map((b) => featuresOf(...b.rgb));
  return features.every((p) =>
    features.every((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < NEAR.chroma && Math.abs(p[2] - q[2]) < NEAR.stops),
  );
}

/** The whole's names and those of the contradicting stretches, each by its share of the length. */
function mixed(whole: RibbonReading, against: readonly RibbonReading[], share: number): Record<ColorName, number> {
  const of = (r: RibbonReading, name: ColorName): number =>
    r.insulation.candidates.find((c) => c.name === name)?.probability ?? 0;
  const entries = COLOR_NAMES.map((name): [ColorName, number] => {
    const other = against.reduce((sum, r) => sum + of(r, name), 0) / against.length;
    return [name, (1 - share) * of(whole, name) + share * other];
  });
  return Object.fromEntries(entries) as Record<ColorName, number>;
}

/**
 * Readings of whole traces, made less sure where stretches of a trace contradict each other: such a trace has
 * probably run from one conductor onto another, and is then neither's color for certain.
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
    const stretches = stretchesOf(ribbons[i]!).map((ribbon) => ({ ribbon, body: ribbonBody(ribbon) }));
    const read = stretches.flatMap(({ ribbon, body }) => (body ? [{ ribbon, body }] : []));
    if (!reading.body || read.length < 2 || alike(read.map((s) => s.body))) return reading;
    const { best, doubts } = reading.insulation;
    const parts = nameInsulations(
      read.map((s) => s.ribbon),
      light,
    ).readings;
    const marks = new Set([reading.stripe?.name, ...reading.tape.map((t) => t.name)]);
    const against = parts.filter(({ insulation: { best: own, candidates } }) => {
      const left = candidates.find((c) => c.name === best)?.probability ?? 0;
      return left < EXCLUDED && !marks.has(own) && !(best === 'green-yellow' && (own === 'green' || own === 'yellow'));
    });
    if (against.length === 0) return reading;
    const all = ranked(mixed(reading, against, against.length / parts.length));
    const set = conformalSet(all);
    return {
      ...reading,
      insulation: {
        ...reading.insulation,
        best: all[0]!.name,
        confidence: Math.min(reading.insulation.confidence, all[0]!.probability),
        candidates: all.filter((c) => c.probability >= 0.005),
        set,
        doubts: [message('color.doubt.strays'), ...doubts],
      },
    };
  });
}
