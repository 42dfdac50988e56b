import type { Surface } from '../palette/types';
import type { Body } from './body';

const METALS: readonly Surface[] = ['copper', 'tinned'];

/**
 * ln factor of a surface from how it shines. Plastic reflects the lamp's own color in its highlights, bare metal its
 * own (dichromatic reflection: Shafer, Color Research and Application 10(4), 1985), and metal varies more along its
 * length. Slopes are assumed and kept small: color decides first.
 */
export function shineEvidence(surface: Surface, body: Body): number {
  if (!METALS.includes(surface)) return 0;
  const shine = Math.min(1.5, Math.max(-1.5, 1.5 * (body.gloss - 0.9)));
  const tint = surface === 'copper' ? Math.min(1, Math.max(-2.5, 5 * (body.highlightTint - 0.85))) : 0;
  return shine + tint;
}
