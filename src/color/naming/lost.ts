import type { Body } from '../ribbon/body';
import { relativeNoise, tooThin } from './measurement';

/**
 * What the best name falls short of certainty by when evidence is lost altogether: samples cut off by clipping or hidden
 * (what is left may be another thing), the same where all channels end at white (anything pale ends there), noise as
 * large as the light (what is cut off at black has a color of its own), blur as wide as the conductor (its surroundings
 * are mixed in). Assumed.
 */
const DOUBT = { clipped: 0.3, washedOut: 0.4, noise: 0.15, thin: 0.06 } as const;

/**
 * How much of the evidence was lost, 0 to 1: it rises with clipping, with noise against light (so with darkness) and with
 * blur against width, whatever the color. No name is surer than 1 less this, before probabilities are made honest, so
 * that a spoiled photo has a ceiling that no color can pass.
 */
export function lostShare(body: Body): number {
  const lost = 1 - body.usable;
  const paleness = Math.min(...body.rgb) / Math.max(1e-9, ...body.rgb);
  const washedOut = Math.min(1, Math.max(0, (paleness - 0.4) / 0.5));
  const shares = [
    DOUBT.clipped * lost ** 1.5,
    DOUBT.washedOut * lost * lost * washedOut,
    DOUBT.noise * Math.min(1, relativeNoise(body)),
    DOUBT.thin * Math.min(1, tooThin(body)),
  ];
  return 1 - shares.reduce((kept, share) => kept * (1 - share), 1);
}
