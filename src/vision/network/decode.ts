import type { Segmentation } from '../segmenter';
import type { Whole } from './enlarge';
import { COLOR_COUNT, SCORE_COUNT } from './planes';

/** Under this calibrated probability direction and width are not given: the network was not asked there. */
const SILENT = 0.05;
/** Log-odds under which a probability is written as 0: most of a photo, and it saves most of the time. */
const NOTHING = -7;

const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));

/**
 * Scores to what the tracer reads. `calibration` turns log-odds learned on renders into log-odds that hold on
 * photographs: z * scale + shift (fitted by models/training/calibrate.py).
 */
export function decode(whole: Whole, by: string, calibration: { scale: number; shift: number }): Segmentation {
  const { width, height, full } = whole;
  const pixels = width * height;
  const wire = new Float32Array(pixels);
  const edge = new Float32Array(pixels);
  const direction = new Float32Array(pixels * 2);
  const halfWidth = new Float32Array(pixels);
  const bare = new Float32Array(pixels);
  for (let i = 0, at = 0; i < pixels; i++, at += SCORE_COUNT) {
    const z = full[at]! * calibration.scale + calibration.shift;
    if (z < NOTHING) continue;
    const p = sigmoid(z);
    wire[i] = p;
    if (p < SILENT) continue;
    edge[i] = sigmoid(full[at + 1]!);
    const c = full[at + 2]!;
    const s = full[at + 3]!;
    const length = Math.sqrt(c * c + s * s);
    if (length > 0.1) {
      direction[2 * i] = c / length;
      direction[2 * i + 1] = s / length;
    }
    halfWidth[i] = Math.exp(full[at + 4]!);
    bare[i] = sigmoid(full[at + 5]!);
  }
  return { width, height, by, learned: true, wire, edge, direction, halfWidth, bare, color: logSoftmax(whole, wire) };
}

/** Log-probabilities over the names; even over all where there is no conductor. */
function logSoftmax(whole: Whole, wire: Float32Array): Float32Array {
  const { width, height, color } = whole;
  const out = new Float32Array(color.length).fill(-Math.log(COLOR_COUNT));
  const columns = Math.ceil(width / 2);
  for (let y = 0; y < height; y += 2)
    for (let x = 0; x < width; x += 2) {
      if (wire[y * width + x]! < SILENT) continue;
      const at = ((y >> 1) * columns + (x >> 1)) * COLOR_COUNT;
      let top = Number.NEGATIVE_INFINITY;
      for (let c = 0; c < COLOR_COUNT; c++) top = Math.max(top, color[at + c]!);
      let sum = 0;
      for (let c = 0; c < COLOR_COUNT; c++) sum += Math.exp(color[at + c]! - top);
      const norm = top + Math.log(sum);
      for (let c = 0; c < COLOR_COUNT; c++) out[at + c] = color[at + c]! - norm;
    }
  return out;
}
