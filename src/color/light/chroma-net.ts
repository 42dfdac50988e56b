import type { Cov2 } from '../gaussian';
import { numbersOfHalves } from '../half';
import { nthSmallest } from '../nth-smallest';
import { luminance } from '../spaces';
import { CHROMA_WEIGHTS } from './chroma-weights';
import { change, type LogRatio, type Thumb } from './statistics';

/**
 * The light from a histogram of log chromaticities, by a small network that moves along it: the idea of Barron,
 * "Convolutional Color Constancy", ICCV 2015. Shapes, weights and their training: models/palette/train_light.py.
 */
const BINS = 32;
const WIDTH = 0.1;
const REACH = (BINS * WIDTH) / 2;
/** Side, spacing, inputs and outputs of the kernels, first to last. */
const KERNELS = [
  { side: 5, apart: 1, from: 4, to: 8 },
  { side: 3, apart: 2, from: 8, to: 8 },
  { side: 3, apart: 4, from: 8, to: 8 },
  { side: 3, apart: 8, from: 8, to: 8 },
  { side: 3, apart: 1, from: 8, to: 1 },
] as const;
const FLOOR = 6e-4;
const DARK = 1e-4;
const FAINT = 2e-4;
const LEAST = 64;
const BRIGHT_SHARE = 0.1;
const SIZE = BINS * BINS;

interface Layer {
  readonly weight: Float32Array;
  readonly bias: Float32Array;
}

let kept: readonly Layer[] | null = null;
function layers(): readonly Layer[] {
  if (kept) return kept;
  let at = 0;
  const take = (count: number): Float32Array => {
    at += count;
    return numbersOfHalves(CHROMA_WEIGHTS, at - count, count);
  };
  kept = KERNELS.map(({ side, from, to }) => ({ weight: take(to * from * side * side), bias: take(to) }));
  return kept;
}

/** Where a log ratio falls among the bins; the ends collect what lies beyond. */
const placeOf = (t: number): number => Math.min(BINS - 1.001, Math.max(0, (t + REACH) / WIDTH - 0.5));

/** Shares a place of the histogram that begins at `from` out to the four nearest bins. */
function splat(into: Float64Array, from: number, x: number, y: number, weight: number): void {
  const i = Math.floor(x);
  const j = Math.floor(y);
  const at = from + i * BINS + j;
  const down = (x - i) * weight;
  const up = weight - down;
  into[at]! += up * (1 - y + j);
  into[at + 1]! += up * (y - j);
  into[at + BINS]! += down * (1 - y + j);
  into[at + BINS + 1]! += down * (y - j);
}

/** Luminance of the cells that can be read, 0 for the others. */
function lightOfCells({ rgb, usable }: Thumb): Float64Array {
  const light = new Float64Array(usable.length);
  for (let cell = 0, k = 0; cell < usable.length; cell++, k += 3)
    if (usable[cell] && rgb[k]! > DARK && rgb[k + 1]! > DARK && rgb[k + 2]! > DARK)
      light[cell] = luminance(rgb[k]!, rgb[k + 1]!, rgb[k + 2]!);
  return light;
}

function addEdges(into: Float64Array, from: number, { width, height, rgb }: Thumb, light: Float64Array): void {
  for (let y = 0; y + 1 < height; y++)
    for (let x = 0; x + 1 < width; x++) {
      const cell = y * width + x;
      if (light[cell] === 0 || light[cell + 1] === 0 || light[cell + width] === 0) continue;
      const r = change(rgb, cell * 3, width * 3);
      const g = change(rgb, cell * 3 + 1, width * 3);
      const b = change(rgb, cell * 3 + 2, width * 3);
      if (r > FAINT && g > FAINT && b > FAINT)
        splat(into, from, placeOf(Math.log(r / g)), placeOf(Math.log(b / g)), r + g + b);
    }
}

/**
 * Square roots of four histograms over (ln r/g, ln b/g), each of sum 1: all cells, cells by their light, the brightest
 * tenth, edges. [histogram][u][v]. Null where too few cells can be read.
 */
export function chromaHistograms(thumb: Thumb): Float64Array | null {
  const { rgb } = thumb;
  const light = lightOfCells(thumb);
  const lit = light.filter((y) => y > 0);
  if (lit.length < LEAST) return null;
  const bright = nthSmallest(lit, Math.floor((1 - BRIGHT_SHARE) * lit.length))!;
  const out = new Float64Array(4 * SIZE);
  for (let cell = 0; cell < light.length; cell++) {
    const y = light[cell]!;
    if (y === 0) continue;
    const u = placeOf(Math.log(rgb[cell * 3]! / rgb[cell * 3 + 1]!));
    const v = placeOf(Math.log(rgb[cell * 3 + 2]! / rgb[cell * 3 + 1]!));
    splat(out, 0, u, v, 1);
    splat(out, SIZE, u, v, y);
    if (y >= bright) splat(out, 2 * SIZE, u, v, 1);
  }
  addEdges(out, 3 * SIZE, thumb, light);
  for (let from = 0; from < out.length; from += SIZE) {
    let sum = 0;
    for (let k = from; k < from + SIZE; k++) sum += out[k]!;
    for (let k = from; k < from + SIZE; k++) out[k] = Math.sqrt(out[k]! / Math.max(sum, 1e-9));
  }
  return out;
}

/** First and one past the last number of each row that is not zero, in turn; an empty row begins where it ends. */
function filled(maps: Float64Array): Uint8Array {
  const out = new Uint8Array((maps.length / BINS) * 2);
  for (let row = 0; row * BINS < maps.length; row++) {
    let from = 0;
    let to = BINS;
    while (from < to && maps[row * BINS + from] === 0) from++;
    while (to > from && maps[row * BINS + to - 1] === 0) to--;
    out[row * 2] = from;
    out[row * 2 + 1] = to;
  }
  return out;
}

/**
 * A convolution with zeros outside, [channel][u][v]. A photo fills a small part of the histograms and of what is made of
 * them: rows are gone through only where they are not zero.
 */
function convolve(input: Float64Array, { weight, bias }: Layer, kernel: (typeof KERNELS)[number]): Float64Array {
  const { side, apart, from, to } = kernel;
  const half = side >> 1;
  const out = new Float64Array(to * SIZE);
  const ends = filled(input);
  for (let o = 0; o < to; o++) {
    const map = out.subarray(o * SIZE, (o + 1) * SIZE).fill(bias[o]!);
    for (let c = 0; c < from; c++)
      for (let tap = 0; tap < side * side; tap++) {
        const w = weight[(o * from + c) * side * side + tap]!;
        const di = (Math.floor(tap / side) - half) * apart;
        const dj = ((tap % side) - half) * apart;
        const shift = c * SIZE + di * BINS + dj;
        for (let i = Math.max(0, -di); i < Math.min(BINS, BINS - di); i++) {
          const row = (c * BINS + i + di) * 2;
          const end = i * BINS + Math.min(BINS, ends[row + 1]! - dj);
          for (let at = i * BINS + Math.max(0, ends[row]! - dj); at < end; at++) map[at]! += w * input[at + shift]!;
        }
      }
  }
  return out;
}

/** What the picture's colors say of the light: a likelihood, no prior in it. */
export interface ChromaAnswer {
  readonly at: LogRatio;
  /** As on simulated pictures. */
  readonly cov: Cov2;
}

/** The light on a thinned photo by the network; about 5 ms. Null where too few cells can be read. */
export function chromaLight(thumb: Thumb): ChromaAnswer | null {
  const hists = chromaHistograms(thumb);
  if (!hists) return null;
  const map = layers().reduce((h, layer, k) => {
    const next = convolve(h, layer, KERNELS[k]!);
    if (k < KERNELS.length - 1) for (let i = 0; i < next.length; i++) if (next[i]! < 0) next[i] = 0;
    return next;
  }, hists);
  const top = map.reduce((most, v) => Math.max(most, v), Number.NEGATIVE_INFINITY);
  const sums = { p: 0, u: 0, v: 0, uu: 0, uv: 0, vv: 0 };
  for (let k = 0; k < SIZE; k++) {
    const p = Math.exp(map[k]! - top);
    const u = (Math.floor(k / BINS) + 0.5) * WIDTH - REACH;
    const v = ((k % BINS) + 0.5) * WIDTH - REACH;
    sums.p += p;
    sums.u += p * u;
    sums.v += p * v;
    sums.uu += p * u * u;
    sums.uv += p * u * v;
    sums.vv += p * v * v;
  }
  const u = sums.u / sums.p;
  const v = sums.v / sums.p;
  return {
    at: [u, v],
    cov: [sums.uu / sums.p - u * u + FLOOR, sums.uv / sums.p - u * v, sums.vv / sums.p - v * v + FLOOR],
  };
}
