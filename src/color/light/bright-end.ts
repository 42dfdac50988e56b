import { luminanceQuantile, type Thumb } from './statistics';

/** The bright end of a photo follows the exposure down to near black. */
const BRIGHT_SHARE = 0.97;
const DARKEST = 0.01;
const BRIGHTEST = 0.9;
/** Luminance of the bright end from which it counts as cut off. */
const CUT_OFF = 0.88;
/**
 * Few photos show a fully lit white: it lies this many stops above the bright end, within about half a stop, on simulated
 * pictures (models/palette/fit_white.py).
 */
const WHITE_ABOVE = 1.2;

/** Luminance that a fully lit white would have, told by the bright end of a photo; above 1 where it would be cut off. */
export const whiteOf = (thumb: Thumb): number =>
  Math.min(BRIGHTEST, Math.max(DARKEST, luminanceQuantile(thumb, BRIGHT_SHARE))) * 2 ** WHITE_ABOVE;

/** Was the bright end, from which this white was told, cut off? Then the white may lie anywhere above. */
export const isCutOff = (white: number): boolean => white >= CUT_OFF * 2 ** WHITE_ABOVE;
