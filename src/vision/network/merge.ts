import { COLOR_COUNT, SCORE_COUNT, type Scores } from './planes';
import type { Window } from './sample';

const LOG_WIDTH = 4;

/** Scores over the whole working image; `color` at half size, rounded up. */
export interface Whole {
  readonly width: number;
  readonly height: number;
  readonly full: Float32Array;
  readonly color: Float32Array;
}

export function emptyWhole(width: number, height: number): Whole {
  return {
    width,
    height,
    full: new Float32Array(width * height * SCORE_COUNT),
    color: new Float32Array(Math.ceil(width / 2) * Math.ceil(height / 2) * COLOR_COUNT),
  };
}

/**
 * Brings a window's scores to the working image, inside `keep`.
 * @param share how much the new scores count against those already there, 0 to 1
 */
export function mergeScores(into: Whole, scores: Scores, look: Window, keep: Window, share: number): void {
  const scale = look.width / scores.width;
  resample(
    scores.full,
    scores.width,
    scores.height,
    SCORE_COUNT,
    look,
    keep,
    into.full,
    into.width,
    share,
    Math.log(scale),
  );
  const half = (w: Window): Window => ({ x: w.x / 2, y: w.y / 2, width: w.width / 2, height: w.height / 2 });
  const halfWidth = Math.ceil(into.width / 2);
  const x = Math.floor(keep.x / 2);
  const y = Math.floor(keep.y / 2);
  const target = {
    x,
    y,
    width: Math.ceil((keep.x + keep.width) / 2) - x,
    height: Math.ceil((keep.y + keep.height) / 2) - y,
  };
  resample(
    scores.color,
    scores.width / 2,
    scores.height / 2,
    COLOR_COUNT,
    half(look),
    target,
    into.color,
    halfWidth,
    share,
    0,
  );
}

/** Bilinear with half-pixel centers, as the network's own upsampling. */
function resample(
  from: Float32Array,
  width: number,
  height: number,
  channels: number,
  look: Window,
  keep: Window,
  to: Float32Array,
  toWidth: number,
  share: number,
  widthShift: number,
): void {
  const sx = width / look.width;
  const sy = height / look.height;
  for (let y = keep.y; y < keep.y + keep.height; y++) {
    const fy = Math.min(height - 1, Math.max(0, (y + 0.5 - look.y) * sy - 0.5));
    const y0 = Math.floor(fy);
    const y1 = Math.min(height - 1, y0 + 1);
    const wy = fy - y0;
    for (let x = keep.x; x < keep.x + keep.width; x++) {
      const fx = Math.min(width - 1, Math.max(0, (x + 0.5 - look.x) * sx - 0.5));
      const x0 = Math.floor(fx);
      const wx = fx - x0;
      const right = x0 + 1 < width ? channels : 0;
      const a = (y0 * width + x0) * channels;
      const b = (y1 * width + x0) * channels;
      const w00 = (1 - wx) * (1 - wy) * share;
      const w01 = wx * (1 - wy) * share;
      const w10 = (1 - wx) * wy * share;
      const w11 = wx * wy * share;
      let at = (y * toWidth + x) * channels;
      for (let c = 0; c < channels; c++, at++)
        to[at] =
          to[at]! * (1 - share) +
          w00 * from[a + c]! +
          w01 * from[a + right + c]! +
          w10 * from[b + c]! +
          w11 * from[b + right + c]!;
      if (channels === SCORE_COUNT) to[at - SCORE_COUNT + LOG_WIDTH]! += share * widthShift;
    }
  }
}
