import type { Ribbon } from '../../flow';
import { quantile, sampleOf } from './samples';

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

/** Null when too few samples have a color. Rows along, columns across. */
export function hueSpreadOf(ribbon: Ribbon): HueSpread | null {
  const { length, across } = ribbon;
  const middle = (across - 1) / 2;
  const samples: { at: number; hue: number; saturation: number; y: number }[] = [];
  for (let i = 0; i < length; i++)
    for (let j = 0; j < across; j++) {
      const at = i * across + j;
      if (!ribbon.usable[at] || Math.abs(j - middle) > CORE * (across / 2)) continue;
      const { s, t, y } = sampleOf(ribbon.rgb[at * 3]!, ribbon.rgb[at * 3 + 1]!, ribbon.rgb[at * 3 + 2]!);
      const saturation = Math.hypot(s, t);
      if (saturation > COLORED) samples.push({ at, hue: (Math.atan2(t, s) * 180) / Math.PI, saturation, y });
    }
  if (samples.length < LEAST_SAMPLES) return null;
  const sorted = (of: (p: (typeof samples)[number]) => number): number[] => samples.map(of).sort((a, b) => a - b);
  const hues = sorted((p) => p.hue);
  const [low, mid, high] = [quantile(hues, 0.05), quantile(hues, 0.5), quantile(hues, 0.95)];
  const usual = quantile(
    sorted((p) => p.saturation),
    0.5,
  );
  const bright = quantile(
    sorted((p) => p.y),
    0.75,
  );
  // 1 near one end of the spread, 2 near the other, 0 between or unknown.
  const ends = new Uint8Array(length * across);
  const third = (high - low) / 3;
  for (const { at, hue, saturation, y } of samples) {
    if (y > bright && saturation < PALE * usual) continue;
    if (hue < low + third) ends[at] = 1;
    else if (hue > high - third) ends[at] = 2;
  }
  return { low, middle: mid, high, turns: coherent(ends, length, across) ? turnsOf(ends, length, across) : 0 };
}

function coherent(ends: Uint8Array, length: number, across: number): boolean {
  let same = 0;
  let all = 0;
  const count = [0, 0, 0];
  for (let k = 0; k < length * across; k++) {
    const here = ends[k]!;
    if (!here) continue;
    count[here]!++;
    for (const next of [(k + 1) % across ? k + 1 : -1, k + across]) {
      const other = next < 0 ? 0 : ends[next];
      if (!other) continue;
      all++;
      if (other === here) same++;
    }
  }
  const [, one, two] = count as [number, number, number];
  const chance = (one * one + two * two) / Math.max(1, (one + two) ** 2);
  return all > 0 && chance < 1 && (same / all - chance) / (1 - chance) >= COHERENT;
}

/** Share of the lines with something on them that change at least twice: along or across, whichever is more. */
function turnsOf(ends: Uint8Array, length: number, across: number): number {
  const share = (lines: number, steps: number, at: (line: number, step: number) => number): number => {
    let seen = 0;
    let turning = 0;
    for (let line = 0; line < lines; line++) {
      let last = 0;
      let changes = 0;
      for (let step = 0; step < steps; step++) {
        const here = ends[at(line, step)]!;
        if (!here) continue;
        if (last && here !== last) changes++;
        last = here;
      }
      if (last) seen++;
      if (changes >= 2) turning++;
    }
    return seen ? turning / seen : 0;
  };
  return Math.max(
    share(across, length, (j, i) => i * across + j),
    share(length, across, (i, j) => i * across + j),
  );
}
