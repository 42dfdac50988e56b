import { COLOR_NAMES, message } from '../../flow';
import type { Body } from '../ribbon/body';
import { conformalSet } from './calibrate';
import type { RibbonReading } from './name-insulations';
import { probabilityOf } from './names';

/**
 * Stops from the 30 % to the 95 % quantile of light within a conductor below which it is flat. A cylinder under any
 * light is not: the median over the conductors of a photo was 0.47 to 2.2 on 66 photographs, 0.30 on cylinders drawn under
 * even light, 0.02 on a wiring diagram.
 */
const FLAT = 0.12;
/** Fewer conductors than this tell nothing of the picture. */
const LEAST = 3;
/** What is as dark is flat in photographs too: luminance, linear. */
const DARK = 0.02;
/** A name in a drawing is at most as sure as this: ink and pixels are no insulation. Assumed: even odds. */
const CEILING = 0.5;

/** Whether what was read looks like lines of a drawing or a screen: most of it shows no shade across at all. */
export function looksDrawn(readings: readonly RibbonReading[]): boolean {
  const lit = readings.flatMap(({ body }): Body[] => (body && Math.max(...body.rgb) > DARK ? [body] : []));
  return lit.length >= LEAST && 2 * lit.filter((body) => body.gloss < FLAT).length > lit.length;
}

/** A reading of a line in a drawing: no name surer than even odds, and the reason. Never surer than before. */
export function doubtDrawn(reading: RibbonReading): RibbonReading {
  const { insulation } = reading;
  const doubts = [message('color.doubt.drawn'), ...insulation.doubts];
  if (insulation.confidence <= CEILING) return { ...reading, insulation: { ...insulation, doubts } };
  const lost = (insulation.confidence - CEILING) / (COLOR_NAMES.length - 1);
  const candidates = COLOR_NAMES.map((name) => ({
    name,
    probability: name === insulation.best ? CEILING : probabilityOf(insulation.candidates, name) + lost,
  })).sort((p, q) => q.probability - p.probability);
  const [best] = candidates;
  return {
    ...reading,
    insulation: {
      ...insulation,
      best: best!.name,
      confidence: best!.probability,
      candidates,
      set: conformalSet(candidates),
      doubts,
    },
  };
}
