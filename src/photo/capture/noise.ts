import { quantile } from './luma';

const BLOCK = 16;
/** Blocks looked at, about: spread evenly over the picture. */
const BLOCKS = 1200;
/** Blocks darker or lighter than this are clipped or crushed and hide their noise. */
const USABLE = { low: 12, high: 243 } as const;

/**
 * Sum over a block of what the difference of two Laplacians (1 -2 1, -2 4 -2, 1 -2 1) makes of each pixel, without its
 * sign. It is a second difference along of second differences down, so that each column is read once a row.
 */
function roughness(plane: Float32Array, width: number, left: number, top: number): number {
  let sum = 0;
  for (let y = top; y < top + BLOCK; y++) {
    const from = y * width + left;
    let before = bend(plane, from - 1, width);
    let here = bend(plane, from, width);
    for (let i = from; i < from + BLOCK; i++) {
      const after = bend(plane, i + 1, width);
      sum += Math.abs(before - 2 * here + after);
      before = here;
      here = after;
    }
  }
  return sum;
}

const bend = (plane: Float32Array, i: number, width: number): number =>
  (plane[i - width] as number) - 2 * (plane[i] as number) + (plane[i + width] as number);

function meanOf(plane: Float32Array, width: number, left: number, top: number): number {
  let sum = 0;
  for (let y = top; y < top + BLOCK; y++)
    for (let i = y * width + left, end = i + BLOCK; i < end; i++) sum += plane[i] as number;
  return sum / (BLOCK * BLOCK);
}

/**
 * Standard deviation of fine noise in levels of 255: the flattest fifth of 16 x 16 blocks, by the difference of
 * two Laplacians, which is blind to slopes (Immerkaer 1996, Computer Vision and Image Understanding 64(2),
 * 300-302; from memory). 0 when no block is usable.
 */
export function noiseLevel(plane: Float32Array, width: number, height: number): number {
  const levels: number[] = [];
  const stride = BLOCK * Math.max(1, Math.floor(Math.sqrt((width * height) / (BLOCK * BLOCK) / BLOCKS)));
  for (let by = 1; by + BLOCK < height; by += stride) {
    for (let bx = 1; bx + BLOCK < width; bx += stride) {
      const mean = meanOf(plane, width, bx, by);
      if (mean <= USABLE.low || mean >= USABLE.high) continue;
      levels.push((Math.sqrt(Math.PI / 2) * roughness(plane, width, bx, by)) / (6 * BLOCK * BLOCK));
    }
  }
  return levels.length === 0 ? 0 : quantile(levels, 0.2);
}
