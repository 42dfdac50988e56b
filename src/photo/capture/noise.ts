import { quantile } from './luma';

const BLOCK = 16;
/** Blocks looked at, about: spread evenly over the picture. */
const BLOCKS = 1200;
/** Blocks darker or lighter than this are clipped or crushed and hide their noise. */
const USABLE = { low: 12, high: 243 } as const;

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
      let sum = 0;
      let mean = 0;
      for (let y = by; y < by + BLOCK; y++) {
        for (let x = bx; x < bx + BLOCK; x++) {
          const i = y * width + x;
          const up = i - width;
          const down = i + width;
          const middle = plane[i] as number;
          const corners =
            (plane[up - 1] as number) +
            (plane[up + 1] as number) +
            (plane[down - 1] as number) +
            (plane[down + 1] as number);
          const sides =
            (plane[up] as number) + (plane[down] as number) + (plane[i - 1] as number) + (plane[i + 1] as number);
          sum += Math.abs(corners - 2 * sides + 4 * middle);
          mean += middle;
        }
      }
      mean /= BLOCK * BLOCK;
      if (mean > USABLE.low && mean < USABLE.high) levels.push((Math.sqrt(Math.PI / 2) * sum) / (6 * BLOCK * BLOCK));
    }
  }
  return levels.length === 0 ? 0 : quantile(levels, 0.2);
}
