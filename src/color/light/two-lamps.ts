import type { LightPosterior } from './types';

/**
 * Degrees from which two lamps are said. Conductors tell a change of the light itself; grays of parts of a picture are
 * also a warm wall beside cold steel, and must be further apart. Assumed.
 */
const LIMIT = { conductors: 9, parts: 16 } as const;

/** Do two kinds of light meet in the photo? The one place where this is decided, for every sentence that says so. */
export const twoLamps = ({ mixedLightDeg, toldByConductors }: LightPosterior): boolean =>
  mixedLightDeg > (toldByConductors ? LIMIT.conductors : LIMIT.parts);
