import type { Ribbon, StripeLayout } from '../../flow';
import { nthSmallest } from '../nth-smallest';
import { type Body, plainBodyOf } from './body';
import { linesAlong, recurs, twoColorGrid } from './recurs';
import { coreOf, type Sample, sampleOf } from './samples';

/** A ribbon that shows two colors: the larger is the base. */
export interface TwoColors {
  readonly base: Body;
  readonly second: Body;
  /** Share of the visible surface that the second color covers, 0 to 0.5. */
  readonly share: number;
  readonly layout: StripeLayout;
  /** How clearly the two are apart: distance of the means over the spread within. */
  readonly contrast: number;
  /** How far place and light allow to believe in it, 0 to 1. */
  readonly trust: number;
  /** It goes on along the conductor as a stripe does. */
  readonly recurs: boolean;
  /** Of what runs along: how many side by side, and whether in dashes. */
  readonly lines: ReturnType<typeof linesAlong>;
}

/** Below this width blur mixes two colors into one. */
const MIN_WIDTH = 6;
const MIN_LENGTH = 6;
/** OKLab saturation units; smaller differences are shading, bounce and dirt. Assumed. */
const MIN_DISTANCE = 0.075;
const MIN_CONTRAST = 2.6;
const MIN_SHARE = 0.1;
/** Too little to call it a stripe, enough to keep a plain green from being sure: a wide pitch shows no more. Assumed. */
export const FAINT_SHARE = 0.03;
const MIN_COHERENCE = 0.8;
/** OKLab saturation below which a color has no hue to compare. */
const COLORLESS = 0.035;
/** Below this luminance of the brighter part colors are noise. About 40 of 255. Assumed. */
const DARK = 0.02;
/** A second color at the rim is as often a neighbor as a stripe. Assumed. */
const EDGE_TRUST = 0.6;
/** A stripe covers less than this of the visible surface. Assumed. */
const MAX_STRIPE = 0.42;

/**
 * Finds a second color on a ribbon by splitting its samples in two by hue and saturation. Null when there is one
 * color, or when the second covers less than `least` of what is seen.
 */
export function splitColors(ribbon: Ribbon, least: number = MIN_SHARE): TwoColors | null {
  if (ribbon.widthPx < MIN_WIDTH || ribbon.length < MIN_LENGTH) return null;
  const core = Math.max(0.6, coreOf(ribbon.widthPx, ribbon.blurPx));
  const middle = (ribbon.across - 1) / 2;
  /** Places in the ribbon, and what is seen there. */
  const cells: number[] = [];
  const samples: Sample[] = [];
  for (let at = 0; at < ribbon.length * ribbon.across; at++) {
    if (!ribbon.usable[at] || Math.abs((at % ribbon.across) - middle) > core * (ribbon.across / 2)) continue;
    cells.push(at);
    samples.push(sampleOf(ribbon.rgb[at * 3]!, ribbon.rgb[at * 3 + 1]!, ribbon.rgb[at * 3 + 2]!));
  }
  if (cells.length < 24) return null;
  const labels = twoMeans(samples);
  if (!labels) return null;
  const ones = labels.reduce((sum, l) => sum + l, 0);
  const second = ones > cells.length / 2 ? 0 : 1;
  const share = (second === 1 ? ones : cells.length - ones) / cells.length;
  if (share < least) return null;

  const baseSamples = samples.filter((_, k) => labels[k] !== second);
  const secondSamples = samples.filter((_, k) => labels[k] === second);
  const p = momentsOf(baseSamples);
  const q = momentsOf(secondSamples);
  const distance = Math.hypot(p.s - q.s, p.t - q.t);
  const contrast = distance / Math.max(0.006, Math.sqrt((p.spread + q.spread) / 2));
  if (distance < MIN_DISTANCE || contrast < MIN_CONTRAST) return null;
  if (isOneColor(p, q, share)) return null;
  const grid = new Int8Array(ribbon.length * ribbon.across).fill(-1);
  cells.forEach((at, k) => {
    grid[at] = labels[k] === second ? 1 : 0;
  });
  if (coherence(grid, ribbon) < MIN_COHERENCE) return null;
  // The spread of hues is explained by the split: neither part may be taken for two colors again.
  const base = plainBodyOf(baseSamples, baseSamples.length, ribbon);
  const other = plainBodyOf(secondSamples, secondSamples.length, ribbon);
  if (!base || !other) return null;
  const shape = layoutOf(grid, ribbon);
  if (!shape) return null;
  const cellGrid = twoColorGrid(
    ribbon,
    Uint8Array.from(grid, (v) => v + 1),
  );
  const lit = Math.min(1, Math.max(p.y, q.y) / DARK);
  return {
    base,
    second: other,
    share,
    layout: shape.layout,
    contrast,
    trust: shape.trust * lit,
    recurs: recurs(cellGrid),
    lines: linesAlong(cellGrid),
  };
}

interface Moments {
  s: number;
  t: number;
  y: number;
  spread: number;
}

function momentsOf(samples: readonly Sample[]): Moments {
  const n = samples.length;
  const m = { s: 0, t: 0, y: 0, spread: 0 };
  for (const p of samples) {
    m.s += p.s / n;
    m.t += p.t / n;
    m.y += p.y / n;
  }
  for (const p of samples) m.spread += ((p.s - m.s) ** 2 + (p.t - m.t) ** 2) / n;
  return m;
}

/**
 * The two are one color: the same hue, once paler (glare, veil, shade), or a colorless highlight on it. Where the
 * colorless part is the larger one it is the base and the rest may be a stripe on white or gray.
 */
function isOneColor(base: Moments, second: Moments, share: number): boolean {
  const [p, q] = [Math.hypot(base.s, base.t), Math.hypot(second.s, second.t)];
  const sameHue = (base.s * second.s + base.t * second.t) / Math.max(1e-6, p * q);
  if (Math.min(p, q) >= COLORLESS) return sameHue > 0.9;
  const secondIsPale = second.y > base.y && q < p;
  return secondIsPale || (p < q && base.y > second.y && share >= MAX_STRIPE);
}

type Center = Pick<Sample, 's' | 't'>;
/** Most rounds of two-means; it settles sooner as a rule. */
const ROUNDS = 12;

/** Two-means in (a/L, b/L), started from the two samples farthest along the main direction. Null when all are equal. */
function twoMeans(samples: readonly Sample[]): Uint8Array | null {
  const all = momentsOf(samples);
  let ss = 0;
  let st = 0;
  let tt = 0;
  for (const p of samples) {
    ss += (p.s - all.s) ** 2;
    st += (p.s - all.s) * (p.t - all.t);
    tt += (p.t - all.t) ** 2;
  }
  const angle = 0.5 * Math.atan2(2 * st, ss - tt);
  const [c, d] = [Math.cos(angle), Math.sin(angle)];
  const along = new Float64Array(samples.length);
  for (let k = 0; k < along.length; k++) along[k] = samples[k]!.s * c + samples[k]!.t * d;
  const low = samples[indexOfRank(along, Math.floor(along.length * 0.06))]!;
  const high = samples[indexOfRank(along, Math.floor(along.length * 0.94))]!;
  if (low.s === high.s && low.t === high.t) return null;
  let p: Center = low;
  let q: Center = high;
  const labels = new Uint8Array(samples.length);
  for (let round = 0; round < ROUNDS; round++) {
    // Of each color the sums of what lies nearer to its center.
    let ps = 0;
    let pt = 0;
    let pn = 0;
    let qs = 0;
    let qt = 0;
    let qn = 0;
    let moved = round === 0;
    for (let k = 0; k < labels.length; k++) {
      const { s, t } = samples[k]!;
      const label = (s - p.s) ** 2 + (t - p.t) ** 2 <= (s - q.s) ** 2 + (t - q.t) ** 2 ? 0 : 1;
      if (labels[k] !== label) {
        labels[k] = label;
        moved = true;
      }
      if (label === 0) {
        ps += s;
        pt += t;
        pn++;
      } else {
        qs += s;
        qt += t;
        qn++;
      }
    }
    if (pn === 0 || qn === 0) return null;
    if (!moved) break;
    p = { s: ps / pn, t: pt / pn };
    q = { s: qs / qn, t: qt / qn };
  }
  return labels;
}

/** Which value would stand at a rank were they sorted, equal ones in the order they have. */
function indexOfRank(values: Float64Array, rank: number): number {
  const value = nthSmallest(values.slice(), rank)!;
  let equals = rank;
  for (const v of values) if (v < value) equals--;
  let at = values.indexOf(value);
  for (; equals > 0; equals--) at = values.indexOf(value, at + 1);
  return at;
}

/** Share of neighboring samples that agree on their color: near 1 for real stripes, lower for noise. */
function coherence(grid: Int8Array, ribbon: Ribbon): number {
  const { length, across } = ribbon;
  let same = 0;
  let all = 0;
  const meet = (here: number, next: number): void => {
    if (next < 0) return;
    all++;
    if (next === here) same++;
  };
  for (let i = 0, k = 0; i < length; i++)
    for (let j = 0; j < across; j++, k++) {
      const here = grid[k]!;
      if (here < 0) continue;
      if (j + 1 < across) meet(here, grid[k + 1]!);
      if (i + 1 < length) meet(here, grid[k + across]!);
    }
  return all === 0 ? 0 : same / all;
}

interface Layout {
  readonly layout: StripeLayout;
  /** 1 where the base lies on both sides of it, less where it may be a neighbor that the trace took in. */
  readonly trust: number;
}

/**
 * Along: some lines along the conductor are all stripe. Rings: some rows across are all stripe, others none, several
 * times over (a single one is something that crosses: null). Else spiral.
 */
function layoutOf(grid: Int8Array, ribbon: Ribbon): Layout | null {
  const shareOf = (index: (k: number) => number, n: number): number | null => {
    let seen = 0;
    let second = 0;
    for (let k = 0; k < n; k++) {
      const v = grid[index(k)]!;
      if (v >= 0) seen++;
      if (v === 1) second++;
    }
    return seen === 0 ? null : second / seen;
  };
  const known = (values: (number | null)[]): number[] => values.filter((v): v is number => v !== null);
  const columns = known(
    Array.from({ length: ribbon.across }, (_, j) => shareOf((k) => k * ribbon.across + j, ribbon.length)),
  );
  const rows = known(
    Array.from({ length: ribbon.length }, (_, i) => shareOf((k) => i * ribbon.across + k, ribbon.across)),
  );
  const acrossSpread = variance(columns);
  const alongSpread = variance(rows);
  if (acrossSpread > 0.05 && acrossSpread > 1.5 * alongSpread) {
    const atEdge = Math.max(columns[0]!, columns[columns.length - 1]!) > 0.6;
    return { layout: 'along', trust: atEdge ? EDGE_TRUST : 1 };
  }
  if (alongSpread > 0.1 && alongSpread > 2 * acrossSpread) {
    let rings = rows[0]! >= 0.5 ? 1 : 0;
    for (let i = 1; i < rows.length; i++) if (rows[i - 1]! < 0.5 && rows[i]! >= 0.5) rings++;
    // The maker's print covers a part of the width, a ring all of it.
    const partial = rows.filter((v) => v > 0.2 && v < 0.8).length / rows.length;
    return rings >= 2 && partial < 0.25 ? { layout: 'rings', trust: 1 } : null;
  }
  return { layout: 'spiral', trust: 1 };
}

function variance(values: readonly number[]): number {
  const mean = values.reduce((s, v) => s + v, 0) / values.length;
  return values.reduce((s, v) => s + (v - mean) ** 2, 0) / values.length;
}

/**
 * A split under a finger: where the finger lies on the second color and that is no narrow stripe, the first is more
 * likely a neighbor that the trace took in, and there is no split to speak of. Green beside yellow stays.
 */
export function underFinger(split: TwoColors, touched: Sample): TwoColors | null {
  const away = (body: Body): number => {
    const p = sampleOf(...body.rgb);
    return Math.hypot(p.s - touched.s, p.t - touched.t);
  };
  const onSecond = away(split.second) < 0.7 * away(split.base);
  return onSecond && split.share > 0.25 && !greenBesideYellow(split) ? null : split;
}

const hueOf = (body: Body): { readonly hue: number; readonly colored: boolean } => {
  const p = sampleOf(...body.rgb);
  return { hue: (Math.atan2(p.t, p.s) * 180) / Math.PI, colored: Math.hypot(p.s, p.t) > COLORLESS };
};

function greenBesideYellow({ base, second }: TwoColors): boolean {
  const [p, q] = [hueOf(base).hue, hueOf(second).hue];
  const inside = (h: number): boolean => h > 80 && h < 170;
  return inside(p) && inside(q) && Math.abs(p - q) > 20;
}

/** One is green, the other what yellow may look like in warm or green light: this may be a protective conductor. */
export function mayBeGreenYellow({ base, second }: TwoColors): boolean {
  const [p, q] = [hueOf(base), hueOf(second)];
  if (!p.colored || !q.colored) return false;
  const [yellower, greener] = p.hue < q.hue ? [p.hue, q.hue] : [q.hue, p.hue];
  return greener > 105 && greener < 185 && yellower > 55 && yellower < 150;
}
