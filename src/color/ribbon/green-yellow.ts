import type { Surface } from '../palette/types';
import type { Body } from './body';

/**
 * Hues of OKLab in degrees. Yellow insulation of the palette lies at 85 to 111, green at 140 and above; where both lie
 * on one conductor and are too thin to be split, pixels mixed of both fill the gap between. From the palette's
 * simulation, edges assumed.
 */
const YELLOW_END = 111;
const GREEN_START = 122;
/** A neighbor's hue in the trace looks the same: spread alone never makes it sure. Assumed. */
const MOST = 3;

/**
 * ln factor of green-yellow from how hues vary over a conductor, against one color that varies by shading alone.
 * Zero for other surfaces.
 */
export function hueSpreadEvidence(surface: Surface, body: Body): number {
  if (surface !== 'green-yellow') return 0;
  const sharpWidths = body.widthPx / Math.max(0.5, body.blurPx);
  const unresolved = -Math.min(4, Math.max(0, (sharpWidths - 4) * 0.6));
  if (!body.hues) return unresolved;
  const [low, middle, high] = body.hues;
  const towardGreen = high > YELLOW_END ? (high - Math.max(middle, 98) - 8) / 3 : -2;
  const towardYellow =
    low < YELLOW_END && middle > GREEN_START ? (Math.min(middle, 150) - Math.max(low, 98) - 20) / 4 : -2;
  const spread = Math.min(MOST, Math.max(-2, towardGreen, middle < 170 ? towardYellow : -2));
  return spread > 0 ? spread : unresolved + spread;
}
