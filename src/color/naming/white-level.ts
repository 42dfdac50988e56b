import type { Body } from '../ribbon/body';
import { luminance } from '../spaces';
import type { WhiteLevel } from './joint';

/**
 * Luminous reflectance of what is tapped as a reference: office paper (ISO 11475 papers lie about 0.85 to 0.9, from
 * memory) and the photographer's gray card (common practice, no source).
 */
const REFLECTANCE = { white: 0.87, gray: 0.18 } as const;
/**
 * A sheet held beside the conductors is seldom lit as fully as the brightest place, and its tilt is unknown: stops below
 * a fully lit white, and their spread. Assumed.
 */
const HELD = { below: 0.3, sd: 0.5 };

/** Where the scene's white lies, from a tapped sheet of known lightness. */
export function whiteLevelOf(body: Body, kind: 'white' | 'gray', anchor: number): WhiteLevel {
  const seen = Math.log2(Math.max(1e-4, luminance(...body.rgb)) / anchor);
  return { stops: seen - Math.log2(REFLECTANCE[kind]) + HELD.below, sd: HELD.sd };
}
