import type { Along, BareStretch, Fading, FineRibbon, Stretch, Tape } from '../../flow';
import type { LightPosterior } from '../light/types';
import type { Body } from '../ribbon/body';
import type { FadedRows } from '../ribbon/fading';
import type { MarkedRows } from '../ribbon/marks';
import type { MarkedBody, Sight } from '../ribbon/sight';
import { featuresOf } from '../spaces';
import { ranked } from './calibrate';
import type { Opinion } from './opinion';

/** Marked stretches nearer than this to an end lie at it, diameters. */
const AT_END = 0.6;

const stretchOf = (fine: FineRibbon, { from, to }: { from: number; to: number }): Stretch => [
  from / fine.length,
  to / fine.length,
];

/** Tape, in order from the first end, with the names its color may have. */
export function tapesOf(
  fine: FineRibbon,
  tapes: readonly MarkedBody<MarkedRows>[],
  opinions: readonly Opinion[],
): Tape[] {
  return tapes.map(({ mark }, k) => {
    const names = ranked(opinions[k]!.names);
    const total = names.reduce((sum, c) => sum + c.probability, 0) || 1;
    const candidates = names.map((c) => ({ name: c.name, probability: c.probability / total }));
    return {
      name: candidates[0]!.name,
      confidence: mark.confidence * candidates[0]!.probability,
      at: fine.centers[Math.floor((mark.from + mark.to) / 2)]!,
      stretch: stretchOf(fine, mark),
      cover: mark.cover,
      candidates: candidates.filter((c) => c.probability >= 0.02),
    };
  });
}

/** Bare metal, fading and length of a finely straightened conductor. */
export function alongOf(fine: FineRibbon, sight: Sight, metals: readonly Body[], light: LightPosterior): Along {
  const edge = AT_END * fine.across;
  return {
    bare: sight.bare.map(({ mark }, k): BareStretch => {
      const atEnd = mark.from < edge || mark.to > fine.length - edge;
      return {
        stretch: stretchOf(fine, mark),
        confidence: mark.confidence,
        diameters: ((mark.to - mark.from) * fine.stepPx) / Math.max(1, fine.widthPx),
        metal: metalOf(metals[k]!, light),
        place: atEnd ? 'end' : 'middle',
        ...(atEnd && hasCollar(fine, mark, sight.tapes) ? { fitting: 'ferrule' } : {}),
      };
    }),
    print: sight.marks?.print.map((run) => stretchOf(fine, run)) ?? [],
    fading: sight.faded && fadingOf(fine, sight.faded),
    diameters: (fine.length * fine.stepPx) / Math.max(1, fine.widthPx),
  };
}

/**
 * A ferrule's collar is at most about twice as long as the insulation is thick, its barrel about four times (DIN 46228-4,
 * from memory: collar 6 to 8 mm, barrel 8 to 12 mm on 1.5 mm2). With room for what the reader blurs.
 */
const COLLAR = 3;
const BARREL = 6;

/** Something colored ends where the bare end begins. */
function hasCollar(fine: FineRibbon, bare: MarkedRows, tapes: readonly MarkedBody<MarkedRows>[]): boolean {
  const { across } = fine;
  if (bare.to - bare.from > BARREL * across) return false;
  const atStart = bare.from < fine.length - bare.to;
  return tapes.some(({ mark }) => {
    const gap = atStart ? mark.from - bare.to : bare.from - mark.to;
    return Math.abs(gap) <= AT_END * across && mark.to - mark.from <= COLLAR * across;
  });
}

/**
 * Saturation (OKLab) of bare metal under the light: copper is reddish yellow (0.05 and more, tarnished less), tin and
 * aluminum are gray. From models/palette (spectral reflectances of metals); the gap between is not decided.
 */
const COPPER = 0.05;
const GRAY = 0.03;

function metalOf(body: Body, light: LightPosterior): BareStretch['metal'] {
  const [s, t] = featuresOf(body.rgb[0] / light.mean[0], body.rgb[1] / light.mean[1], body.rgb[2] / light.mean[2]);
  const warm = (s + t) / Math.SQRT2;
  if (warm > COPPER && t > 0) return 'copper';
  return Math.hypot(s, t) < GRAY ? 'tinned copper or aluminum' : 'not decided';
}

/** Where the picture shows it fading, and the stretch that has faded least. */
function fadingOf(fine: FineRibbon, { fadedAtStart, left, clean }: FadedRows): Fading {
  const [a, b] = [fine.centers[0]!, fine.centers[fine.centers.length - 1]!];
  const [dx, dy] = fadedAtStart ? [a[0] - b[0], a[1] - b[1]] : [b[0] - a[0], b[1] - a[1]];
  const toward = Math.abs(dx) > Math.abs(dy) ? (dx < 0 ? 'left' : 'right') : dy < 0 ? 'up' : 'down';
  return { toward, left, cleanest: stretchOf(fine, clean) };
}
