import { COLOR_COUNT, SCORE_COUNT, type Scores } from './planes';

const LOG_WIDTH = 4;
/** Log-odds of a conductor under which the other scores of a pixel are not worth computing. */
const NOTHING = -6;

/** Scores over the whole working image; `color` at half size, rounded up. */
export interface Whole {
  readonly width: number;
  readonly height: number;
  readonly full: Float32Array;
  readonly color: Float32Array;
}

/** Where a pixel of one row or column lies between two of another: half-pixel centers, as in the network itself. */
interface Between {
  readonly low: Int32Array;
  readonly high: Int32Array;
  readonly weight: Float32Array;
}

function between(from: number, to: number, step: number): Between {
  const low = new Int32Array(to);
  const high = new Int32Array(to);
  const weight = new Float32Array(to);
  for (let i = 0; i < to; i++) {
    const at = Math.min(from - 1, Math.max(0, (i + 0.5) * step - 0.5));
    low[i] = Math.floor(at);
    high[i] = Math.min(from - 1, low[i]! + 1);
    weight[i] = at - low[i]!;
  }
  return { low, high, weight };
}

/** Brings scores from the size that the network looked at to the working image; half widths become its pixels. */
export function enlarge(scores: Scores, width: number, height: number): Whole {
  const full = new Float32Array(width * height * SCORE_COUNT);
  const at = (x: number, y: number): number => (y * width + x) * SCORE_COUNT;
  bilinear(scores.full, scores.width, scores.height, full, width, height, SCORE_COUNT, true, () => true);
  const shift = Math.log(width / scores.width);
  for (let i = LOG_WIDTH; i < full.length; i += SCORE_COUNT) full[i]! += shift;
  const halfWidth = Math.ceil(width / 2);
  const halfHeight = Math.ceil(height / 2);
  const color = new Float32Array(halfWidth * halfHeight * COLOR_COUNT);
  const asked = (x: number, y: number): boolean => full[at(2 * x, 2 * y)]! >= NOTHING;
  bilinear(scores.color, scores.width / 2, scores.height / 2, color, halfWidth, halfHeight, COLOR_COUNT, false, asked);
  return { width, height, full, color };
}

/**
 * @param brief where the first channel is below NOTHING, only it is computed
 * @param asked pixels for which anything is computed
 */
function bilinear(
  from: Float32Array,
  fromWidth: number,
  fromHeight: number,
  to: Float32Array,
  width: number,
  height: number,
  channels: number,
  brief: boolean,
  asked: (x: number, y: number) => boolean,
): void {
  const h = between(fromWidth, width, fromWidth / width);
  const v = between(fromHeight, height, fromHeight / height);
  for (let y = 0, at = 0; y < height; y++) {
    const top = v.low[y]! * fromWidth;
    const bottom = v.high[y]! * fromWidth;
    const wy = v.weight[y]!;
    for (let x = 0; x < width; x++, at += channels) {
      if (!asked(x, y)) continue;
      const wx = h.weight[x]!;
      const a = (top + h.low[x]!) * channels;
      const b = (top + h.high[x]!) * channels;
      const c = (bottom + h.low[x]!) * channels;
      const d = (bottom + h.high[x]!) * channels;
      const wa = (1 - wx) * (1 - wy);
      const wb = wx * (1 - wy);
      const wc = (1 - wx) * wy;
      const wd = wx * wy;
      const first = wa * from[a]! + wb * from[b]! + wc * from[c]! + wd * from[d]!;
      to[at] = first;
      if (brief && first < NOTHING) continue;
      for (let k = 1; k < channels; k++)
        to[at + k] = wa * from[a + k]! + wb * from[b + k]! + wc * from[c + k]! + wd * from[d + k]!;
    }
  }
}
