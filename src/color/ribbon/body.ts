import type { Ribbon } from '../../flow';
import type { Cov2 } from '../gaussian';
import { featuresOf, luminance, type Rgb } from '../spaces';

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
  /** log2 of bright over dim along the ribbon: near 0 on matte white, 2 and more on glossy black. */
  readonly gloss: number;
  /** Saturation of the brightest samples against the body's: near 0 for plastic's highlights, 1 and more for bare metal. */
  readonly highlightTint: number;
  readonly widthPx: number;
  readonly blurPx: number;
  readonly noise: number;
}

interface Sample {
  readonly r: number;
  readonly g: number;
  readonly b: number;
  readonly y: number;
  readonly s: number;
  readonly t: number;
}

/** How much of the half width is free of the background that blur mixes in. Assumed, from the width of a Gaussian edge. */
export function coreOf(widthPx: number, blurPx: number): number {
  if (widthPx < 5) return 0.25;
  const mixed = (2 * Math.max(0.5, blurPx)) / widthPx;
  return Math.min(0.75, Math.max(0.3, 0.88 - 1.4 * mixed));
}

/** Samples of the ribbon's core: within `core` of the center line (1 is the edge), usable, with their features. */
export function coreSamples(ribbon: Ribbon, core: number): { samples: Sample[]; looked: number } {
  const samples: Sample[] = [];
  let looked = 0;
  const middle = (ribbon.across - 1) / 2;
  const reach = Math.max(0.51, core * (ribbon.across / 2));
  for (let i = 0; i < ribbon.length; i++) {
    for (let j = 0; j < ribbon.across; j++) {
      if (Math.abs(j - middle) > reach) continue;
      looked++;
      const at = i * ribbon.across + j;
      if (!ribbon.usable[at]) continue;
      const r = ribbon.rgb[at * 3]!;
      const g = ribbon.rgb[at * 3 + 1]!;
      const b = ribbon.rgb[at * 3 + 2]!;
      const [s, t] = featuresOf(r, g, b);
      samples.push({ r, g, b, y: luminance(r, g, b), s, t });
    }
  }
  return { samples, looked };
}

const quantile = (sorted: readonly number[], q: number): number =>
  sorted[Math.min(sorted.length - 1, Math.max(0, Math.floor(q * sorted.length)))] ?? 0;

/** Which part of the luminance range is body: above the shadowed flank, below the highlight. */
const DIM = 0.35;
const BRIGHT = 0.85;

/**
 * Body color of samples. Highlights are left out (bright and paler than the rest), so is the shadowed flank; what
 * remains is averaged in linear light, which weighs by luminance. Null when there is nothing usable.
 */
export function bodyOf(samples: readonly Sample[], looked: number, ribbon: Ribbon): Body | null {
  if (samples.length === 0) return null;
  const ys = samples.map((p) => p.y).sort((a, b) => a - b);
  const saturations = samples.map((p) => Math.hypot(p.s, p.t)).sort((a, b) => a - b);
  const usual = quantile(saturations, 0.5);
  const top = quantile(ys, 0.75);
  const plain = samples.filter((p) => !(p.y > top && usual > 0.03 && Math.hypot(p.s, p.t) < 0.8 * usual));
  const kept = plain.length >= 4 ? plain : samples;
  const keptY = kept.map((p) => p.y).sort((a, b) => a - b);
  const low = quantile(keptY, DIM);
  const high = quantile(keptY, BRIGHT);
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
  const brightest = samples.filter((p) => p.y >= quantile(ys, 0.95));
  const highlight = brightest.reduce((sum, p) => sum + Math.hypot(p.s, p.t), 0) / brightest.length;
  return {
    rgb: [mean.r, mean.g, mean.b],
    scatter: [ss, st, tt],
    count: n,
    usable: samples.length / Math.max(1, looked),
    gloss: Math.log2((quantile(ys, 0.95) + 1e-4) / (quantile(ys, 0.3) + 1e-4)),
    highlightTint: highlight / Math.max(0.02, Math.hypot(mean.s, mean.t)),
    widthPx: ribbon.widthPx,
    blurPx: ribbon.blurPx,
    noise: ribbon.noise,
  };
}

/** Body color of a whole ribbon; clipped samples are taken only where nothing else is left. Null when it is empty. */
export function ribbonBody(ribbon: Ribbon): Body | null {
  const { samples, looked } = coreSamples(ribbon, coreOf(ribbon.widthPx, ribbon.blurPx));
  if (samples.length > 0) return bodyOf(samples, looked, ribbon);
  const all: Ribbon = { ...ribbon, usable: new Uint8Array(ribbon.usable.length).fill(1) };
  const clipped = bodyOf(coreSamples(all, 1).samples, looked, ribbon);
  return clipped && { ...clipped, usable: 0 };
}
