import { describe, expect, it } from 'vitest';
import type { Raster } from '../../../src/flow';
import { sampleWindow } from '../../../src/vision/network/sample';

/** A raster from a function of place that gives one gray level. */
function raster(width: number, height: number, gray: (x: number, y: number) => number): Raster {
  const data = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data.set([gray(x, y), gray(x, y), gray(x, y), 255], (y * width + x) * 4);
  return { width, height, data };
}

describe('sampleWindow', () => {
  it('copies where sizes agree, from the right place', () => {
    const out = sampleWindow(
      raster(8, 6, (x, y) => x * 10 + y),
      { x: 2, y: 1, width: 3, height: 2 },
      3,
      2,
    );
    expect(Array.from(out).filter((_, i) => i % 3 === 0)).toEqual(
      [21, 31, 41, 22, 32, 42].map((v) => Math.fround(v / 255)),
    );
  });

  it('keeps a flat picture flat at any size', () => {
    for (const [w, h] of [
      [32, 32],
      [50, 20],
      [7, 90],
    ] as const)
      for (const v of sampleWindow(
        raster(40, 30, () => 51),
        { x: 0, y: 0, width: 40, height: 30 },
        w,
        h,
      ))
        expect(v).toBeCloseTo(0.2, 5);
  });

  it('weighs 1 3 3 1 when halving, as a triangle filter twice as wide does', () => {
    const impulse = raster(12, 12, (x) => (x === 5 ? 255 : 0));
    const out = sampleWindow(impulse, { x: 0, y: 0, width: 12, height: 12 }, 6, 6);
    const row = Array.from({ length: 6 }, (_, x) => out[(2 * 6 + x) * 3]!);
    expect(row[2]).toBeCloseTo(3 / 8, 5);
    expect(row[3]).toBeCloseTo(1 / 8, 5);
    expect(row[1]).toBeCloseTo(0, 5);
  });

  it('twin that must fail: taking the nearest pixel would not weigh so', () => {
    const impulse = raster(12, 12, (x) => (x === 5 ? 255 : 0));
    const out = sampleWindow(impulse, { x: 0, y: 0, width: 12, height: 12 }, 6, 6);
    expect(out[(2 * 6 + 2) * 3]).not.toBeCloseTo(1, 1);
  });
});
