import type { Ribbon } from '../../flow';
import type { Cov2 } from '../gaussian';
import { type Rgb, strengthOf } from '../spaces';
import { type HueSpread, hueSpreadOf } from './hue-spread';
import { mainColor } from './mode';
import { coreOf, coreSamples, type Sample, sampleOf, unsortedQuantile } from './samples';

/** The color of a conductor's body as the camera saw it (light not removed), with what limits it. */
export interface Body {
  /** Linear sRGB. */
  readonly rgb: Rgb;
  /** Covariance of (a/L, b/L) between the samples used. */
  readonly scatter: Cov2;
  /** How many samples the color rests on. */
  readonly count: number;
  /** Share of the samples looked at that could be used, 0 to 1. */
  readonly usable: number;
  /** Share of the usable samples that show this color, 0 to 1: low where the trace strays or several colors lie on it. */
  readonly agreement: number;
  /** log2 of bright over dim along the ribbon: near 0 on matte white, 2 and more on glossy black. */
  readonly gloss: number;
  /** Saturation of the brightest samples against the body's: near 0 for plastic's highlights, 1 and more for bare metal. */
  readonly highlightTint: number;
  /** How hue varies over it; null when few samples have a color. */
  readonly hues: HueSpread | null;
  readonly widthPx: number;
  readonly blurPx: number;
  readonly noise: number;
}

/** Which part of a body's luminance range is used: above the shadowed flank, below the highlight. */
const DIM = 0.3;
const BRIGHT = 0.85;
/**
 * Body color of samples. The main color is found first (neighbors and crossings fall away); highlights are left out
 * (bright and paler than the rest), so is the shadowed flank; what remains is averaged in linear light, which weighs
 * by luminance. Null when there is nothing.
 */
export function bodyOf(samples: readonly Sample[], looked: number, ribbon: Ribbon, touched?: Sample): Body | null {
  const plain = plainBodyOf(samples, looked, ribbon, touched);
  return plain && { ...plain, hues: hueSpreadOf(ribbon) };
}

const luminances = (samples: readonly Sample[]): Float64Array => {
  const out = new Float64Array(samples.length);
  for (let k = 0; k < out.length; k++) out[k] = samples[k]!.y;
  return out;
};

const saturations = (samples: readonly Sample[]): Float64Array => {
  const out = new Float64Array(samples.length);
  for (let k = 0; k < out.length; k++) out[k] = strengthOf(samples[k]!.s, samples[k]!.t);
  return out;
};

/** `bodyOf` where nobody asks how hue varies, which takes half of the time: `hues` is null. */
export function plainBodyOf(samples: readonly Sample[], looked: number, ribbon: Ribbon, touched?: Sample): Body | null {
  if (samples.length === 0) return null;
  const members = mainColor(samples, ribbon.noise, touched);
  const colored = saturations(members);
  const usual = unsortedQuantile(colored.slice(), 0.5);
  const top = unsortedQuantile(luminances(members), 0.75);
  const plain = members.filter((p, k) => !(p.y > top && usual > 0.03 && colored[k]! < 0.8 * usual));
  const kept = plain.length >= 4 ? plain : members;
  const keptY = luminances(kept);
  const low = unsortedQuantile(keptY, DIM);
  const high = unsortedQuantile(keptY, BRIGHT);
  const band = kept.filter((p) => p.y >= low && p.y <= high);
  const n = band.length;
  const mean = { r: 0, g: 0, b: 0, s: 0, t: 0 };
  for (const p of band) {
    mean.r += p.r / n;
    mean.g += p.g / n;
    mean.b += p.b / n;
    mean.s += p.s / n;
    mean.t += p.t / n;
  }
  let ss = 0;
  let st = 0;
  let tt = 0;
  for (const p of band) {
    ss += (p.s - mean.s) ** 2 / n;
    st += ((p.s - mean.s) * (p.t - mean.t)) / n;
    tt += (p.t - mean.t) ** 2 / n;
  }
  const allY = luminances(samples);
  const bright = unsortedQuantile(allY, 0.95);
  const brightest = samples.filter((p) => p.y >= bright);
  const highlight = brightest.reduce((sum, p) => sum + Math.hypot(p.s, p.t), 0) / brightest.length;
  return {
    rgb: [mean.r, mean.g, mean.b],
    scatter: [ss, st, tt],
    count: n,
    usable: samples.length / Math.max(1, looked),
    agreement: members.length / samples.length,
    gloss: Math.log2((bright + 1e-4) / (unsortedQuantile(allY, 0.3) + 1e-4)),
    highlightTint: highlight / Math.max(0.02, Math.hypot(mean.s, mean.t)),
    hues: null,
    widthPx: ribbon.widthPx,
    blurPx: ribbon.blurPx,
    noise: ribbon.noise,
  };
}

/** Color under the finger: the mean of the pixels that were touched (linear sRGB, 3 values each). */
export function touchedSample(rgb: Float32Array): Sample | null {
  const n = Math.floor(rgb.length / 3);
  if (n === 0) return null;
  // The median pixel by luminance: a mean would mix a stray neighbor in.
  const pixels = Array.from({ length: n }, (_, k) => sampleOf(rgb[k * 3]!, rgb[k * 3 + 1]!, rgb[k * 3 + 2]!)).sort(
    (a, b) => a.y - b.y,
  );
  const middle = pixels.slice(Math.floor(n * 0.3), Math.max(1, Math.ceil(n * 0.7)));
  const mean = (value: (p: Sample) => number): number => middle.reduce((s, p) => s + value(p), 0) / middle.length;
  return sampleOf(
    mean((p) => p.r),
    mean((p) => p.g),
    mean((p) => p.b),
  );
}

/** Body color of a whole ribbon; clipped samples are taken only where nothing else is left. Null when it is empty. */
export const ribbonBody = (ribbon: Ribbon, touched?: Sample): Body | null => bodyIn(ribbon, bodyOf, touched);

/** The same without how hue varies. */
export const plainRibbonBody = (ribbon: Ribbon): Body | null => bodyIn(ribbon, plainBodyOf);

function bodyIn(ribbon: Ribbon, read: typeof bodyOf, touched?: Sample): Body | null {
  const { samples, looked } = coreSamples(ribbon, coreOf(ribbon.widthPx, ribbon.blurPx));
  if (samples.length > 0) return read(samples, looked, ribbon, touched);
  const all: Ribbon = { ...ribbon, usable: new Uint8Array(ribbon.usable.length).fill(1) };
  const clipped = read(coreSamples(all, 1).samples, looked, ribbon, touched);
  return clipped && { ...clipped, usable: 0 };
}
