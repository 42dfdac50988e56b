import { describe, expect, it } from 'vitest';
import { enlarge } from '../../../src/vision/network/enlarge';
import { COLOR_COUNT, SCORE_COUNT, type Scores } from '../../../src/vision/network/planes';
import { lookSize } from '../../../src/vision/network/segmenter';

/** Scores of one sure wire column of pixels at each listed x, elsewhere sure background. */
function scores(width: number, height: number, columns: readonly number[], halfWidth: number): Scores {
  const full = new Float32Array(width * height * SCORE_COUNT);
  for (let i = 0; i < width * height; i++) {
    full[i * SCORE_COUNT] = columns.includes(i % width) ? 2 : -8;
    full[i * SCORE_COUNT + 4] = Math.log(halfWidth);
  }
  return { width, height, full, color: new Float32Array((width * height * COLOR_COUNT) / 4) };
}

describe('lookSize', () => {
  it('shows a 1200 px photo within three bare runs at 512 px, in multiples of 32', () => {
    for (const [w, h] of [
      [1200, 900],
      [900, 1200],
      [1200, 675],
    ] as const) {
      const { width, height } = lookSize(w, h, 32);
      expect(width % 32).toBe(0);
      expect(height % 32).toBe(0);
      expect(width * height).toBeLessThan(3.15 * 512 * 512);
    }
  });

  it('enlarges small photos by at most 1.4 and shrinks large ones to no less than 0.857', () => {
    expect(lookSize(480, 360, 32)).toEqual({ width: 672, height: 512 });
    expect(lookSize(1600, 1200, 32)).toEqual({ width: 1376, height: 1024 });
  });

  it('keeps the least size that the network takes', () => {
    expect(lookSize(20, 20, 32)).toEqual({ width: 64, height: 64 });
  });
});

describe('enlarge', () => {
  it('gives half widths in pixels of the working image', () => {
    const whole = enlarge(scores(32, 32, [4], 3), 64, 64);
    expect(Math.exp(whole.full[(10 * 64 + 9) * SCORE_COUNT + 4]!)).toBeCloseTo(6, 3);
  });

  it('puts a column where it was, between half-pixel centers', () => {
    const whole = enlarge(scores(32, 32, [4], 3), 64, 64);
    // Pixels 8 and 9 of 64 lie on column 4 of 32, a quarter pixel from its center: 2 * 3/4 - 8 * 1/4.
    expect(whole.full[(10 * 64 + 8) * SCORE_COUNT]).toBeCloseTo(-0.5, 4);
    expect(whole.full[(10 * 64 + 9) * SCORE_COUNT]).toBeCloseTo(-0.5, 4);
    expect(whole.full[(10 * 64 + 20) * SCORE_COUNT]).toBeCloseTo(-8, 4);
  });

  it('twin that must fail: corners aligned instead, pixel 8 would not equal pixel 9', () => {
    const aligned = (x: number): number => (x * 31) / 63;
    expect(Math.abs(aligned(8) - 4)).not.toBeCloseTo(Math.abs(aligned(9) - 4), 3);
  });

  it('returns the same size unchanged', () => {
    const from = scores(32, 32, [4], 3);
    expect(enlarge(from, 32, 32).full[4 * SCORE_COUNT]).toBe(2);
  });
});
