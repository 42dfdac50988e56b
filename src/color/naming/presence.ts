import { COLOR_NAMES, type ColorName, message } from '../../flow';
import { PALETTE_DATA } from '../palette/palette-data';
import { conformalSet, ranked } from './calibrate';
import type { RibbonReading } from './name-insulations';
import { blend, eachName, type Names, probabilityOf } from './names';

/**
 * How far the name of a trace is believed, by the probability that it is a conductor; straight lines between. Of sure names
 * on 2332 traces in 97 rendered scenes (`models/training/render/tool/marked.cpp`) those with presence below 0.75 were a
 * fifth as often right as those above 0.95, at 0.8 half as often, at 0.9 three quarters. Believed more than
 * that, as these scenes are fuller of stripes and clutter than photographs: assumed.
 */
const BELIEF = [
  [0.75, 0.5],
  [0.9, 0.9],
  [0.95, 1],
] as const;

/** The names of a set have this probability together. */
const COVERED = 0.95;

function beliefIn(presence: number): number {
  const k = BELIEF.findIndex(([p]) => p >= presence);
  if (k <= 0) return BELIEF[k < 0 ? BELIEF.length - 1 : 0]![1];
  const [p0, b0] = BELIEF[k - 1]!;
  const [p1, b1] = BELIEF[k]!;
  return b0 + ((b1 - b0) * (presence - p0)) / (p1 - p0);
}

const namesOf = ({ insulation }: RibbonReading): Names =>
  eachName((name) => probabilityOf(insulation.candidates, name));

const sumOf = (names: Names): number => COLOR_NAMES.reduce((sum, name) => sum + names[name], 0);

/** What else may lie there: the names of what is believed in this photo, and of one conductor that nothing is known of. */
function around(readings: readonly RibbonReading[], beliefs: readonly number[]): Names {
  const all = readings.map(namesOf);
  const sums = eachName((name) => all.reduce((sum, own, k) => sum + beliefs[k]! * own[name], PALETTE_DATA[name].prior));
  const total = sumOf(sums);
  return eachName((name) => sums[name] / total);
}

/** A best name stays ahead by this share of its lead, or rounding would turn it. */
const KEPT_LEAD = 0.01;

/** The share that others may have at most so that the best name stays the best guess. */
function mostShare(own: Names, others: Names, best: ColorName): number {
  return COLOR_NAMES.reduce((most, name) => {
    const lead = own[best] - own[name];
    const gain = others[name] - others[best];
    return gain > 0 ? Math.min(most, ((1 - KEPT_LEAD) * lead) / (lead + gain)) : most;
  }, 1);
}

/** A reading whose names are believed as far as `belief`, else those `around`. Never surer than before. */
function believed(reading: RibbonReading, belief: number, others: Names): RibbonReading {
  if (belief >= 1 || !reading.body) return reading;
  const { insulation, coveringConfidence } = reading;
  const own = namesOf(reading);
  const total = sumOf(own);
  const rest = eachName((name) => total * others[name]);
  const share = Math.min(1 - belief, mostShare(own, rest, insulation.best));
  const all = ranked(blend(own, rest, share));
  // What is left over to a name that the photo is full of may be most of the doubt: the set must hold it.
  const names = conformalSet(all);
  let covered = 0;
  for (const { name, probability } of all) {
    if (covered >= COVERED * total) break;
    covered += probability;
    if (!names.includes(name)) names.push(name);
  }
  return {
    ...reading,
    coveringConfidence: 0.5 + belief * (coveringConfidence - 0.5),
    insulation: {
      ...insulation,
      confidence: Math.min(insulation.confidence, all.find((c) => c.name === insulation.best)!.probability),
      candidates: all.filter((c) => c.probability >= 0.005),
      set: all.map((c) => c.name).filter((name) => names.includes(name)),
      doubts: [message('color.doubt.presence'), ...insulation.doubts],
    },
  };
}

/**
 * Readings of what was found with nobody pointing, each believed only as far as its trace is a conductor (`presences`, in
 * the same order, 0 to 1): gaps, shadows and edges between conductors look like something too. The best name stays; what
 * it loses goes to the names of the photo. Never makes a name surer.
 */
export function doubtPresence(readings: readonly RibbonReading[], presences: readonly number[]): RibbonReading[] {
  const beliefs = presences.map(beliefIn);
  const others = around(readings, beliefs);
  return readings.map((reading, k) => believed(reading, beliefs[k]!, others));
}
