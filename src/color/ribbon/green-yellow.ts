import type { Surface } from '../palette/types';
import type { Body } from './body';

/**
 * Hues of OKLab in degrees. Yellow insulation of the palette lies at 85 to 111, green at 140 and above; where both lie
 * on one conductor and are too thin to be split, pixels mixed of both fill the gap between. From the palette's
 * simulation, edges assumed; the outer ones leave room for warm and for cold light. What lies beyond them is red or
 * blue, and no mixture of yellow and green.
 */
const YELLOW = [60, 111] as const;
const GREEN = [122, 185] as const;
/** A neighbor's hue in the trace looks the same: spread alone never makes it sure. Assumed. */
const MOST = 3;
/** Share of lines on which yellow and green take turns that is as good as all of them: a spiral leaves some out. Assumed. */
const ALL_TURN = 0.5;

/**
 * ln factor of green-yellow from how hues vary over a conductor, against one color that varies by shading alone. Speaks
 * for it only where both yellow and green are there and take turns along or across, as on a stripe. Zero for other
 * surfaces.
 */
export function hueSpreadEvidence(surface: Surface, body: Body): number {
  if (surface !== 'green-yellow') return 0;
  const sharpWidths = body.widthPx / Math.max(0.5, body.blurPx);
  const unresolved = -Math.min(4, Math.max(0, (sharpWidths - 4) * 0.6));
  if (!body.hues) return unresolved;
  const { low, middle, high, turns } = body.hues;
  const inside = low >= YELLOW[0] && high <= GREEN[1];
  const towardGreen = inside && high > YELLOW[1] ? (high - Math.max(middle, 98) - 8) / 3 : -2;
  const towardYellow =
    inside && low < YELLOW[1] && middle > GREEN[0] ? (Math.min(middle, 150) - Math.max(low, 98) - 20) / 4 : -2;
  const spread = Math.min(MOST, Math.max(-2, towardGreen, towardYellow));
  // Both colors without turns: a neighbor's, light from aside, or a stripe of which one turn is seen. That says nothing.
  return spread > 0 ? spread * Math.min(1, turns / ALL_TURN) : unresolved + spread;
}
