import type { Segmentation } from '../segmenter';
import { between } from './between';
import { COLOR_COUNT, SCORE_COUNT, type Scores } from './planes';

/** Under this calibrated probability direction and width are not given: the network was not asked there. */
const SILENT = 0.05;
/** Log-odds under which a probability is written as 0: most of a photo, and it saves most of the time. */
const NOTHING = -7;

const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));

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
  const n = SCORE_COUNT;
  const from = scores.full;
  const { scale, shift } = calibration;
  const h = between(scores.width, width);
  const v = between(scores.height, height);
  for (let y = 0, i = 0; y < height; y++) {
    const top = v.low[y]! * scores.width;
    const bottom = v.high[y]! * scores.width;
    const down = v.weight[y]!;
    for (let x = 0; x < width; x++, i++) {
      const a = (top + h.low[x]!) * n;
      const b = (top + h.high[x]!) * n;
      const c = (bottom + h.low[x]!) * n;
      const d = (bottom + h.high[x]!) * n;
      const right = h.weight[x]!;
      const wd = right * down;
      const wb = right - wd;
      const wc = down - wd;
      const wa = 1 - right - wc;
      const z = (wa * from[a]! + wb * from[b]! + wc * from[c]! + wd * from[d]!) * scale + shift;
      if (z < NOTHING) continue;
      const p = sigmoid(z);
      wire[i] = p;
      if (p < SILENT) continue;
      edge[i] = sigmoid(wa * from[a + 1]! + wb * from[b + 1]! + wc * from[c + 1]! + wd * from[d + 1]!);
      const cos = wa * from[a + 2]! + wb * from[b + 2]! + wc * from[c + 2]! + wd * from[d + 2]!;
      const sin = wa * from[a + 3]! + wb * from[b + 3]! + wc * from[c + 3]! + wd * from[d + 3]!;
      const length = Math.sqrt(cos * cos + sin * sin);
      if (length > 0.1) {
        direction[2 * i] = cos / length;
        direction[2 * i + 1] = sin / length;
      }
      const log = wa * from[a + 4]! + wb * from[b + 4]! + wc * from[c + 4]! + wd * from[d + 4]!;
      halfWidth[i] = Math.exp(log) * grow;
      bare[i] = sigmoid(wa * from[a + 5]! + wb * from[b + 5]! + wc * from[c + 5]! + wd * from[d + 5]!);
    }
  }
  const color = logColors(scores, wire, width, height);
  const { tape, stripe } = scores;
  const marks = { width: scores.width, height: scores.height, tape, stripe };
  return { width, height, by, learned: true, wire, edge, direction, halfWidth, bare, color, marks };
}

/** Log-probabilities over the names at half size; even over all where there is no conductor. */
function logColors(scores: Scores, wire: Float32Array, width: number, height: number): Float32Array {
  const columns = Math.ceil(width / 2);
  const rows = Math.ceil(height / 2);
  const out = new Float32Array(columns * rows * COLOR_COUNT).fill(-Math.log(COLOR_COUNT));
  const from = scores.color;
  const stride = scores.width / 2;
  const h = between(stride, columns);
  const v = between(scores.height / 2, rows);
  for (let y = 0, to = 0; y < rows; y++)
    for (let x = 0; x < columns; x++, to += COLOR_COUNT) {
      if (wire[2 * y * width + 2 * x]! < SILENT) continue;
      const a = (v.low[y]! * stride + h.low[x]!) * COLOR_COUNT;
      const b = (v.low[y]! * stride + h.high[x]!) * COLOR_COUNT;
      const c = (v.high[y]! * stride + h.low[x]!) * COLOR_COUNT;
      const d = (v.high[y]! * stride + h.high[x]!) * COLOR_COUNT;
      const right = h.weight[x]!;
      const down = v.weight[y]!;
      let top = Number.NEGATIVE_INFINITY;
      for (let k = 0; k < COLOR_COUNT; k++) {
        const upper = from[a + k]! + right * (from[b + k]! - from[a + k]!);
        const lower = from[c + k]! + right * (from[d + k]! - from[c + k]!);
        out[to + k] = upper + down * (lower - upper);
        top = Math.max(top, out[to + k]!);
      }
      let sum = 0;
      for (let k = 0; k < COLOR_COUNT; k++) sum += Math.exp(out[to + k]! - top);
      const norm = top + Math.log(sum);
      for (let k = 0; k < COLOR_COUNT; k++) out[to + k]! -= norm;
    }
  return out;
}
