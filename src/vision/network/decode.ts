import type { Segmentation } from '../segmenter';
import { type Between, between } from './between';
import { COLOR_COUNT, SCORE_COUNT, type Scores } from './planes';

/** Under this calibrated probability direction and width are not given: the network was not asked there. */
const SILENT = 0.05;
/** Log-odds under which a probability is written as 0: most of a photo, and it saves most of the time. */
const NOTHING = -7;

const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));

/** Bilinear reading of interleaved channels at one pixel of the larger picture. */
class Reader {
  #a = 0;
  #b = 0;
  #c = 0;
  #d = 0;
  #wa = 0;
  #wb = 0;
  #wc = 0;
  #wd = 0;
  readonly #from: Float32Array;
  readonly #width: number;
  readonly #channels: number;
  readonly #h: Between;
  readonly #v: Between;

  constructor(from: Float32Array, channels: number, size: readonly [number, number], to: readonly [number, number]) {
    this.#from = from;
    this.#channels = channels;
    this.#width = size[0];
    this.#h = between(size[0], to[0]);
    this.#v = between(size[1], to[1]);
  }

  move(x: number, y: number): void {
    const top = this.#v.low[y]! * this.#width;
    const bottom = this.#v.high[y]! * this.#width;
    const left = this.#h.low[x]!;
    const right = this.#h.high[x]!;
    const wx = this.#h.weight[x]!;
    const wy = this.#v.weight[y]!;
    this.#a = (top + left) * this.#channels;
    this.#b = (top + right) * this.#channels;
    this.#c = (bottom + left) * this.#channels;
    this.#d = (bottom + right) * this.#channels;
    this.#wa = (1 - wx) * (1 - wy);
    this.#wb = wx * (1 - wy);
    this.#wc = (1 - wx) * wy;
    this.#wd = wx * wy;
  }

  read(k: number): number {
    const f = this.#from;
    return (
      this.#wa * f[this.#a + k]! + this.#wb * f[this.#b + k]! + this.#wc * f[this.#c + k]! + this.#wd * f[this.#d + k]!
    );
  }
}

/**
 * Scores, at the size that the network looked at, to what the tracer reads, at working size. `calibration` turns
 * log-odds learned on renders into log-odds that hold on photographs: z * scale + shift (models/training/calibrate.py).
 */
export function decode(
  scores: Scores,
  width: number,
  height: number,
  by: string,
  calibration: { readonly scale: number; readonly shift: number },
): Segmentation {
  const pixels = width * height;
  const wire = new Float32Array(pixels);
  const edge = new Float32Array(pixels);
  const direction = new Float32Array(pixels * 2);
  const halfWidth = new Float32Array(pixels);
  const bare = new Float32Array(pixels);
  const grow = width / scores.width;
  const at = new Reader(scores.full, SCORE_COUNT, [scores.width, scores.height], [width, height]);
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      at.move(x, y);
      const z = at.read(0) * calibration.scale + calibration.shift;
      if (z < NOTHING) continue;
      const p = sigmoid(z);
      wire[i] = p;
      if (p < SILENT) continue;
      edge[i] = sigmoid(at.read(1));
      const c = at.read(2);
      const s = at.read(3);
      const length = Math.sqrt(c * c + s * s);
      if (length > 0.1) {
        direction[2 * i] = c / length;
        direction[2 * i + 1] = s / length;
      }
      halfWidth[i] = Math.exp(at.read(4)) * grow;
      bare[i] = sigmoid(at.read(5));
    }
  const color = logColors(scores, wire, width, height);
  return { width, height, by, learned: true, wire, edge, direction, halfWidth, bare, color };
}

/** Log-probabilities over the names at half size; even over all where there is no conductor. */
function logColors(scores: Scores, wire: Float32Array, width: number, height: number): Float32Array {
  const columns = Math.ceil(width / 2);
  const rows = Math.ceil(height / 2);
  const out = new Float32Array(columns * rows * COLOR_COUNT).fill(-Math.log(COLOR_COUNT));
  const at = new Reader(scores.color, COLOR_COUNT, [scores.width / 2, scores.height / 2], [columns, rows]);
  for (let y = 0, to = 0; y < rows; y++)
    for (let x = 0; x < columns; x++, to += COLOR_COUNT) {
      if (wire[2 * y * width + 2 * x]! < SILENT) continue;
      at.move(x, y);
      let top = Number.NEGATIVE_INFINITY;
      for (let c = 0; c < COLOR_COUNT; c++) {
        out[to + c] = at.read(c);
        top = Math.max(top, out[to + c]!);
      }
      let sum = 0;
      for (let c = 0; c < COLOR_COUNT; c++) sum += Math.exp(out[to + c]! - top);
      const norm = top + Math.log(sum);
      for (let c = 0; c < COLOR_COUNT; c++) out[to + c]! -= norm;
    }
  return out;
}
