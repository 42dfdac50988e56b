import { describe, expect, it } from 'vitest';
import { decode } from '../../../src/vision/network/decode';
import { COLOR_COUNT, SCORE_COUNT, type Scores } from '../../../src/vision/network/planes';
import { lookSize } from '../../../src/vision/network/segmenter';

/** Scores of one sure wire column of pixels at each listed x, elsewhere sure background. */
function scores(width: number, height: number, columns: readonly number[], halfWidth: number): Scores {
  const full = new Float32Array(width * height * SCORE_COUNT);
  for (let i = 0; i < width * height; i++) {
    full[i * SCORE_COUNT] = columns.includes(i % width) ? 2 : -8;
    full[i * SCORE_COUNT + 4] = Math.log(halfWidth);
  }
  return {
    width,
    height,
    full,
    color: new Float32Array((width * height * COLOR_COUNT) / 4),
    tape: new Float32Array(width * height),
    stripe: new Float32Array((width * height) / 4),
  };
}

describe('lookSize', () => {
  it('shows a photo of any size within what three bare runs at 512 px see, in multiples of 32', () => {
    for (const [w, h] of [
      [1200, 900],
      [900, 1200],
      [1200, 675],
      [1600, 1200],
      [1600, 1600],
      [1600, 100],
    ] as const) {
      const { width, height } = lookSize(w, h, 32);
      expect(width % 32).toBe(0);
      expect(height % 32).toBe(0);
      expect(width * height).toBeLessThan(3.15 * 512 * 512);
    }
  });

  it('enlarges small photos by at most 1.4', () => {
    expect(lookSize(480, 360, 32)).toEqual({ width: 672, height: 512 });
  });

  it('keeps the least size that the network takes', () => {
    expect(lookSize(20, 20, 32)).toEqual({ width: 64, height: 64 });
  });
});

describe('decode', () => {
  const plain = { scale: 1, shift: 0 };
  const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));

  it('gives half widths in pixels of the working image', () => {
    const { halfWidth } = decode(scores(32, 32, [4], 3), 64, 64, 'test', plain);
    expect(halfWidth[10 * 64 + 9]).toBeCloseTo(6, 3);
  });

  it('puts a column where it was, between half-pixel centers', () => {
    const { wire } = decode(scores(32, 32, [4], 3), 64, 64, 'test', plain);
    // Pixels 8 and 9 of 64 lie on column 4 of 32, a quarter pixel from its center: 2 * 3/4 - 8 * 1/4.
    expect(wire[10 * 64 + 8]).toBeCloseTo(sigmoid(-0.5), 5);
    expect(wire[10 * 64 + 9]).toBeCloseTo(sigmoid(-0.5), 5);
    expect(wire[10 * 64 + 20]).toBe(0);
  });

  it('twin that must fail: corners aligned instead, pixel 8 would not equal pixel 9', () => {
    const aligned = (x: number): number => (x * 31) / 63;
    expect(Math.abs(aligned(8) - 4)).not.toBeCloseTo(Math.abs(aligned(9) - 4), 3);
  });

  it('applies the calibration to log-odds', () => {
    const { wire } = decode(scores(32, 32, [4], 3), 32, 32, 'test', { scale: 0.5, shift: -1.5 });
    expect(wire[4]).toBeCloseTo(sigmoid(-0.5), 5);
  });

  it('gives colors as probabilities that sum to 1, on conductors by score and elsewhere even', () => {
    const from = scores(32, 32, [4, 5], 3);
    for (let i = 0; i < 256; i++) from.color[i * COLOR_COUNT + 2] = 3;
    const { color } = decode(from, 32, 32, 'test', plain);
    const at = (x: number): number[] => Array.from(color!.slice(x * COLOR_COUNT, (x + 1) * COLOR_COUNT), Math.exp);
    for (const x of [2, 10]) expect(at(x).reduce((a, b) => a + b)).toBeCloseTo(1, 4);
    expect(at(2)[2]).toBeCloseTo(Math.exp(3) / (Math.exp(3) + 12), 4);
    expect(at(10)[2]).toBeCloseTo(1 / 13, 4);
  });
});
