import { describe, expect, it } from 'vitest';
import { COLOR_NAMES, type Point, SAID } from '../../../src/flow';
import { SaidReader, wireOdds } from '../../../src/vision/ribbon/said';
import type { Segmentation } from '../../../src/vision/segmenter';
import { makeField } from '../../../src/vision/trace/field';
import { blank } from '../draw';

const [W, H] = [40, 20];
const RED = COLOR_NAMES.indexOf('red');

/** A segmentation that sees a conductor along x everywhere, 4 pixels to either side of its middle, red at 0.6; looked at twice as large. */
function segmentation(): Segmentation {
  const n = W * H;
  const rest = Math.log(0.4 / (COLOR_NAMES.length - 1));
  return {
    width: W,
    height: H,
    by: 'test',
    learned: true,
    wire: new Float32Array(n).fill(0.9),
    edge: new Float32Array(n).fill(0.001),
    direction: Float32Array.from({ length: 2 * n }, (_, k) => 1 - (k % 2)),
    halfWidth: new Float32Array(n).fill(4),
    color: Float32Array.from({ length: (n / 4) * COLOR_NAMES.length }, (_, k) =>
      k % COLOR_NAMES.length === RED ? Math.log(0.6) : rest,
    ),
    marks: {
      width: 2 * W,
      height: 2 * H,
      // Log-odds rise by one from pixel to pixel of the look.
      tape: Float32Array.from({ length: 4 * n }, (_, k) => (k % (2 * W)) - 30),
      stripe: new Float32Array(n).fill(-2.5),
    },
  };
}

const line = Array.from({ length: 10 }, (_, k) => ({
  at: [4 * k + 1, 10] as const,
  halfWidth: 4,
  seen: true,
  wire: 0.9,
}));

function said(planes: Segmentation, at: Point, along: Point, halfWidth = 4): Record<(typeof SAID)[number], number> {
  const out = new Float32Array(SAID.length);
  new SaidReader(makeField(planes, blank(W, H, [90, 20, 20])), line).read(...at, ...along, halfWidth, out, 0);
  return Object.fromEntries(SAID.map((name, k) => [name, out[k]!])) as Record<(typeof SAID)[number], number>;
}

describe('what a segmentation says of a place on a conductor', () => {
  it('gives odds, way, width and name there', () => {
    const there = said(segmentation(), [20, 10], [1, 0], 2);
    const field = makeField(segmentation(), blank(W, H, [90, 20, 20]));
    expect(wireOdds(field, 20, 10)).toBeCloseTo(Math.log(9), 5);
    expect(wireOdds(field, -1, 10)).toBeCloseTo(-Math.log(49), 5);
    // Odds of 1 to 999 are no surer than those of 2 %, where calibration ends.
    expect(there.edge).toBeCloseTo(-Math.log(49), 5);
    expect(there.way).toBeCloseTo(1, 6);
    expect(there.width).toBeCloseTo(Math.log(2), 5);
    expect(there.stripe).toBeCloseTo(-2.5, 5);
    expect(there.name).toBeCloseTo(Math.log(0.6), 5);
  });
  it('reads what was looked at larger between its pixels', () => {
    // Pixel 20 of 40 begins where pixel 40 of 80 does: between the centers of 39 (9) and 40 (10) lies 9.5, beyond the bound of 8.
    expect(said(segmentation(), [17.25, 10], [1, 0]).tape).toBeCloseTo(34.5 - 0.5 - 30, 4);
    expect(said(segmentation(), [20, 10], [1, 0]).tape).toBe(8);
  });
  it('twin: across the way, or traced as wide as it is, way and width say so', () => {
    const across = said(segmentation(), [20, 10], [0, 1]);
    expect(across.way).toBeCloseTo(-1, 6);
    expect(across.width).toBeCloseTo(0, 6);
  });
  it('says nothing outside the picture, nor of marks and names that the segmenter cannot tell', () => {
    expect(Object.values(said(segmentation(), [-1, 10], [1, 0])).every((v) => v === 0)).toBe(true);
    const { marks: _, color: __, ...dumb } = segmentation();
    expect(said(dumb, [20, 10], [1, 0])).toMatchObject({ tape: 0, stripe: 0, name: 0, way: 1 });
  });
});
