import { describe, expect, it } from 'vitest';
import type { Raster } from '../../src/flow';
import { pixelsRound, underFinger } from '../../src/inspect/touch';

/** Red left of the middle, blue right of it; the last column is clipped white. */
function picture(): Raster {
  const [width, height] = [20, 10];
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width - 1; x++) data.set(x < 10 ? [200, 0, 0, 255] : [0, 0, 200, 255], (y * width + x) * 4);
  return { width, height, data };
}

describe('the pixels round a point', () => {
  it('are those of a disk: 13 of radius 2, 5 of radius 1 (lattice points, Gauss circle problem, OEIS A000328)', () => {
    for (const [radius, count] of [
      [0, 1],
      [1, 5],
      [2, 13],
      [3, 29],
    ] as const) {
      const { rgb, usable } = pixelsRound(picture(), [5, 5], radius);
      expect(usable).toHaveLength(count);
      expect(rgb).toHaveLength(3 * count);
    }
  });

  it('are none beyond the border, where a copy of the last one read would speak for what is not there', () => {
    const corner = pixelsRound(picture(), [0.5, 0.5], 2);
    expect(corner.usable).toHaveLength(6);
    expect(pixelsRound(picture(), [-5, -5], 2).usable).toHaveLength(0);
    expect(underFinger(picture(), [40, 5], 10)).toHaveLength(0);
  });

  it('say which of them touch a clipped one; twin: none is where nothing is', () => {
    const { usable } = pixelsRound(picture(), [18.5, 5.5], 1);
    expect([...usable].sort()).toEqual([0, 0, 0, 1]);
    expect([...pixelsRound(picture(), [4.5, 5.5], 1).usable]).toEqual([1, 1, 1, 1, 1]);
  });

  it('come in linear light: sRGB 200 is 0.5776 (IEC 61966-2-1)', () => {
    const { rgb } = pixelsRound(picture(), [4.5, 5.5], 0);
    expect(rgb[0]).toBeCloseTo(0.5776, 3);
    expect([rgb[1], rgb[2]]).toEqual([0, 0]);
  });
});
