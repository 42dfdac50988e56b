import type { Tensor4D } from '@tensorflow/tfjs-core';
import type { PackedOutputs } from './graph';
import type { NetworkManifest } from './manifest';

/** Scores kept per pixel, interleaved in this order. */
export const SCORES = ['wire', 'edge', 'cos2t', 'sin2t', 'log-half-width', 'bare'] as const;
export const SCORE_COUNT = SCORES.length;
export const COLOR_COUNT = 13;
/** Log-odds of every kind of conductor under which they need not be added up exactly. */
const CLEARLY_NOTHING = -8;

/** The network's scores over one window, at the size that it looked at. */
export interface Scores {
  readonly width: number;
  readonly height: number;
  /**
   * height x width x SCORE_COUNT: log-odds of any conductor, log-odds of an edge between touching ones, direction,
   * natural logarithm of the half width in the pixels of this window, log-odds of bare metal among conductors.
   */
  readonly full: Float32Array;
  /** height/2 x width/2 x COLOR_COUNT color scores. */
  readonly color: Float32Array;
  /** Log-odds of tape, height x width, and of a stripe, height/2 x width/2. */
  readonly tape: Float32Array;
  readonly stripe: Float32Array;
}

/** Reads the scores off the network's outputs, which it disposes. */
export async function readScores(outputs: PackedOutputs, manifest: NetworkManifest): Promise<Scores> {
  const { packed, block, half } = outputs;
  try {
    const [, rows, columns] = packed.shape;
    const [full, color] = await Promise.all([values(packed), values(half)]);
    const [width, height] = [columns * block, rows * block];
    return {
      width,
      height,
      ...readFull(full, width, height, block, manifest.full.channels),
      ...readHalf(color, (width * height) / 4, manifest.half.channels),
    };
  } finally {
    packed.dispose();
    half.dispose();
  }
}

async function values(tensor: Tensor4D): Promise<Float32Array> {
  return (await tensor.data()) as Float32Array;
}

function readFull(
  from: Float32Array,
  columns: number,
  rows: number,
  block: number,
  channels: readonly string[],
): Pick<Scores, 'full' | 'tape'> {
  const n = channels.length;
  const place = (name: string): number => channels.indexOf(name);
  const [background, insulated, bare, jacket] = ['background', 'insulated', 'bare', 'jacket'].map(place) as [
    number,
    number,
    number,
    number,
  ];
  const [edge, cos, sin, width, tape] = ['edge', 'cos2t', 'sin2t', 'log-half-width', 'tape'].map(place) as [
    number,
    number,
    number,
    number,
    number,
  ];
  const out = new Float32Array(columns * rows * SCORE_COUNT);
  const tapes = new Float32Array(columns * rows);
  const cell = block * block * n;
  for (let y = 0, to = 0; y < rows; y++) {
    const line = Math.floor(y / block) * (columns / block) * cell + (y % block) * block * n;
    for (let x = 0; x < columns; x++, to += SCORE_COUNT) {
      const at = line + Math.floor(x / block) * cell + (x % block) * n;
      const a = from[at + insulated]!;
      const b = from[at + bare]!;
      const c = from[at + jacket]!;
      const most = Math.max(a, b, c) - from[at + background]!;
      const nothing = most < CLEARLY_NOTHING;
      const covered = nothing ? Math.max(a, c) : logSum(a, c);
      out[to] = nothing ? most : logSum(covered, b) - from[at + background]!;
      out[to + 1] = from[at + edge]!;
      out[to + 2] = from[at + cos]!;
      out[to + 3] = from[at + sin]!;
      out[to + 4] = from[at + width]!;
      out[to + 5] = b - covered;
      tapes[y * columns + x] = from[at + tape]!;
    }
  }
  return { full: out, tape: tapes };
}

/** log(exp a + exp b) without overflow. */
function logSum(a: number, b: number): number {
  return a > b ? a + Math.log1p(Math.exp(b - a)) : b + Math.log1p(Math.exp(a - b));
}

function readHalf(from: Float32Array, pixels: number, channels: readonly string[]): Pick<Scores, 'color' | 'stripe'> {
  const n = channels.length;
  const striped = channels.indexOf('stripe');
  const color = new Float32Array(pixels * COLOR_COUNT);
  const stripe = new Float32Array(pixels);
  for (let i = 0; i < pixels; i++) {
    for (let c = 0; c < COLOR_COUNT; c++) color[i * COLOR_COUNT + c] = from[i * n + c]!;
    stripe[i] = from[i * n + striped]!;
  }
  return { color, stripe };
}
