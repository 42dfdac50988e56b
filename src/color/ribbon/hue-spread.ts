import type { Ribbon } from '../../flow';
import { luminance, saturationOf, strengthOf } from '../spaces';
import { unsortedQuantile } from './samples';

/** How hue varies over a conductor, and whether it does so as a stripe would. Angles in degrees of OKLab. */
export interface HueSpread {
  /** Hue angles at the 5 %, 50 % and 95 % quantile of the colored samples. */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /**
   * How far the two ends of the spread take turns, 0 to 1: the share of lines along or across on which they change at
   * least twice. Shade and fading change once or never, a neighbor at the rim once, noise everywhere (then it is 0).
   */
  readonly turns: number;
}

/** Hues are looked at over more of the width than color is: mixing with the surroundings matters less to them. */
const CORE = 0.8;
/** Saturation below which a hue angle is noise. */
const COLORED = 0.07;
const LEAST_SAMPLES = 24;
/**
 * A highlight is brighter than most and paler than this share of the usual saturation: its hue is the lamp's. Yellow beside
 * green is brighter too, at 0.77 of its saturation (EIA-359-A, test/published/insulation-centers.json). Assumed, with room for dirt.
 */
const PALE = 0.55;
/**
 * How far neighbors at an end of the spread are at the same one beyond chance (Cohen's kappa, 1960): none in noise, 0.55
 * on the thinnest sharp stripes. Assumed.
 */
const COHERENT = 0.4;

/** The colored samples of a ribbon, side by side: which cells they are, and what they look like. */
interface ColoredSamples {
  readonly at: Uint32Array;
  /** Degrees of OKLab. */
  readonly hue: Float64Array;
  readonly saturation: Float64Array;
  /** Relative luminance. */
  readonly y: Float64Array;
}

function coloredSamples({ length, across, rgb, usable }: Ribbon): ColoredSamples {
  const middle = (across - 1) / 2;
  const at = new Uint32Array(length * across);
  const hue = new Float64Array(at.length);
  const saturation = new Float64Array(at.length);
  const y = new Float64Array(at.length);
  let n = 0;
  for (let j = 0; j < across; j++) {
    if (Math.abs(j - middle) > CORE * (across / 2)) continue;
    for (let k = j; k < at.length; k += across) {
      if (!usable[k]) continue;
      const [r, g, b] = [rgb[k * 3]!, rgb[k * 3 + 1]!, rgb[k * 3 + 2]!];
      const [s, t] = saturationOf(r, g, b);
      const strength = strengthOf(s, t);
      if (!(strength > COLORED)) continue;
      at[n] = k;
      hue[n] = (Math.atan2(t, s) * 180) / Math.PI;
      saturation[n] = strength;
      y[n] = luminance(r, g, b);
      n++;
    }
  }
  return {
    at: at.subarray(0, n),
    hue: hue.subarray(0, n),
    saturation: saturation.subarray(0, n),
    y: y.subarray(0, n),
  };
}

/** Null when too few samples have a color. Rows along, columns across. */
export function hueSpreadOf(ribbon: Ribbon): HueSpread | null {
  const { length, across } = ribbon;
  const { at, hue, saturation, y } = coloredSamples(ribbon);
  if (at.length < LEAST_SAMPLES) return null;
  const hues = hue.slice();
  const [low, mid, high] = [unsortedQuantile(hues, 0.05), unsortedQuantile(hues, 0.5), unsortedQuantile(hues, 0.95)];
  const pale = PALE * unsortedQuantile(saturation.slice(), 0.5);
  const bright = unsortedQuantile(y.slice(), 0.75);
  // 1 near one end of the spread, 2 near the other, 0 between or unknown.
  const ends = new Uint8Array(length * across);
  const third = (high - low) / 3;
  for (let n = 0; n < at.length; n++) {
    if (y[n]! > bright && saturation[n]! < pale) continue;
    if (hue[n]! < low + third) ends[at[n]!] = 1;
    else if (hue[n]! > high - third) ends[at[n]!] = 2;
  }
  return { low, middle: mid, high, turns: coherent(ends, length, across) ? turnsOf(ends, length, across) : 0 };
}

/** Whether neighbors, along and across, agree on their end of the spread beyond chance. */
function coherent(ends: Uint8Array, length: number, across: number): boolean {
  let same = 0;
  let all = 0;
  let one = 0;
  let two = 0;
  for (let i = 0, k = 0; i < length; i++)
    for (let j = 0; j < across; j++, k++) {
      const here = ends[k]!;
      if (here === 0) continue;
      if (here === 1) one++;
      else two++;
      const beside = j + 1 < across ? ends[k + 1]! : 0;
      const below = i + 1 < length ? ends[k + across]! : 0;
      if (beside !== 0) all++;
      if (below !== 0) all++;
      if (beside === here) same++;
      if (below === here) same++;
    }
  const chance = (one * one + two * two) / Math.max(1, (one + two) ** 2);
  return all > 0 && chance < 1 && (same / all - chance) / (1 - chance) >= COHERENT;
}

/** Share of the lines with something on them that change at least twice: along or across, whichever is more. */
const turnsOf = (ends: Uint8Array, length: number, across: number): number =>
  Math.max(turningShare(ends, across, 1, length, across), turningShare(ends, length, across, across, 1));

/** The same of so many lines, whose first cells lie `apart` from each other, of so many cells that lie `step` apart. */
function turningShare(ends: Uint8Array, lines: number, apart: number, cells: number, step: number): number {
  let seen = 0;
  let turning = 0;
  for (let line = 0; line < lines; line++) {
    let last = 0;
    let changes = 0;
    for (let n = 0, k = line * apart; n < cells; n++, k += step) {
      const here = ends[k]!;
      if (here === 0) continue;
      if (last !== 0 && here !== last) changes++;
      last = here;
    }
    if (last !== 0) seen++;
    if (changes >= 2) turning++;
  }
  return seen ? turning / seen : 0;
}
