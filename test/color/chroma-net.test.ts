import { describe, expect, it } from 'vitest';
import { chromaHistograms, chromaLight } from '../../src/color/light/chroma-net';
import { thumbOf } from '../../src/color/light/statistics';
import type { Raster } from '../../src/flow';
import parity from './light-parity.json';

interface Case {
  readonly width: number;
  readonly height: number;
  readonly rgb: string;
  readonly modes: readonly number[];
  readonly light: readonly number[];
}

function rasterOf({ width, height, rgb }: Case, order = [0, 1, 2]): Raster {
  const bytes = Buffer.from(rgb, 'base64');
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let k = 0; k < width * height; k++) for (let c = 0; c < 3; c++) data[k * 4 + c] = bytes[k * 3 + order[c]!]!;
  return { width, height, data };
}
const answerOf = (raster: Raster): number[] => {
  const { at, cov } = chromaLight(thumbOf(raster))!;
  return [...at, ...cov];
};
const worst = (a: readonly number[], b: readonly number[]): number => Math.max(...b.map((v, k) => Math.abs(v - a[k]!)));

describe('the light from the histogram of colors', () => {
  it.each(parity.cases.map((one, k) => [k, one] as const))(
    'says what NumPy made of picture %i by loops of its own (models/palette/train_light.py)',
    (_, one) => {
      const hists = chromaHistograms(thumbOf(rasterOf(one)))!;
      const modes = [0, 1, 2, 3].map((k) => Math.max(...hists.subarray(k * 1024, (k + 1) * 1024)));
      // Single against double precision: one edge in 2,400 may fall on the other side of a threshold.
      expect(worst(modes, one.modes)).toBeLessThan(2e-4);
      expect(worst(answerOf(rasterOf(one)), one.light)).toBeLessThan(5e-4);
    },
  );
  it('twin: with red and blue exchanged it says another light', () => {
    for (const one of parity.cases) expect(worst(answerOf(rasterOf(one, [2, 1, 0])), one.light)).toBeGreaterThan(0.01);
  });
  it('moves with the light: twice the red is read as about twice the red', () => {
    // ln 2 = 0.69, where nothing is clipped. The network was trained to within a degree or two (0.04 each) of any light.
    const [one] = parity.cases;
    const dim = rasterOf(one!);
    for (let k = 0; k < dim.data.length; k++) if (k % 4 < 3) dim.data[k] = dim.data[k]! * 0.6;
    const red: Raster = { ...dim, data: dim.data.map((v, k) => (k % 4 === 0 ? v * 2 ** (1 / 2.2) : v)) };
    expect(answerOf(red)[0]! - answerOf(dim)[0]!).toBeGreaterThan(0.4);
    expect(answerOf(red)[0]! - answerOf(dim)[0]!).toBeLessThan(0.95);
  });
  it('has no answer where nothing can be read', () => {
    const black: Raster = { width: 40, height: 40, data: new Uint8ClampedArray(40 * 40 * 4) };
    expect(chromaLight(thumbOf(black))).toBeNull();
  });
});
