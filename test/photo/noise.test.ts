import { describe, expect, it } from 'vitest';
import { noiseLevel } from '../../src/photo/capture/noise';
import { normal, seeded } from '../hard/random';

const BLOCK = 16;

/** Luma of a slope with noise, as single precision numbers that sums of 8-bit levels with weights make. */
function plane(width: number, height: number, seed: number): Float32Array {
  const next = seeded(seed);
  return Float32Array.from({ length: width * height }, (_, i) =>
    Math.max(0, 0.7152 * Math.round(60 + (i % width) / 4 + 5 * normal(next)) + 0.0722 * Math.round(90 + normal(next))),
  );
}

/** The noise level by nine neighbors of every pixel, as the paper writes the mask. */
function byMask(values: Float32Array, width: number, height: number, middle = 4): number {
  const mask = [1, -2, 1, -2, middle, -2, 1, -2, 1];
  const levels: number[] = [];
  for (let by = 1; by + BLOCK < height; by += BLOCK)
    for (let bx = 1; bx + BLOCK < width; bx += BLOCK) {
      let sum = 0;
      for (let y = by; y < by + BLOCK; y++)
        for (let x = bx; x < bx + BLOCK; x++)
          sum += Math.abs(
            mask.reduce((s, m, k) => s + m * values[(y - 1 + Math.floor(k / 3)) * width + x - 1 + (k % 3)]!, 0),
          );
      levels.push((Math.sqrt(Math.PI / 2) * sum) / (6 * BLOCK * BLOCK));
    }
  return levels.sort((a, b) => a - b)[Math.floor(0.2 * levels.length)]!;
}

describe('noise', () => {
  it.each([1, 2, 3])('by differences of differences is what the whole mask gives, to the last bit (%i)', (seed) => {
    const values = plane(150, 101, seed);
    expect(noiseLevel(values, 150, 101)).toBe(byMask(values, 150, 101));
  });

  it('is not what another mask gives (twin)', () => {
    const values = plane(150, 101, 1);
    expect(noiseLevel(values, 150, 101)).not.toBeCloseTo(byMask(values, 150, 101, 4.1), 2);
  });
});
