import { describe, expect, it } from 'vitest';
import { findConductors, makeTraceable } from '../../src/vision';
import { blank, grain, lay } from './draw';
import { type DrawnConductor, planesOf } from './planes';

type Rgb = readonly [number, number, number];
const GRAY: Rgb = [150, 150, 148];

/** Straight conductors side by side that touch, as a network sees them that misses the edge between. */
function sideBySide(colors: readonly Rgb[], halfWidth: number) {
  const raster = blank(320, 240, GRAY);
  const drawn = colors.map((color, k): DrawnConductor & { readonly color: Rgb } => ({
    path: [
      [-10, 100 + 2 * halfWidth * k],
      [330, 100 + 2 * halfWidth * k],
    ],
    halfWidth,
    color,
  }));
  for (const { path, color } of drawn) lay(raster, path, halfWidth, color);
  grain(raster, 3);
  return findConductors(makeTraceable(raster, planesOf(raster, drawn))).map((one) => one.conductor);
}

const RED: Rgb = [190, 30, 35];
const BROWN: Rgb = [140, 60, 40];
const WHITE: Rgb = [225, 225, 220];
const BLACK: Rgb = [95, 95, 97];

describe('conductors that touch with no edge seen between', () => {
  it.each([
    ['two of one color', [RED, RED]],
    ['three of one color', [RED, RED, RED]],
    ['four of one color', [RED, RED, RED, RED]],
    ['red and brown', [RED, BROWN]],
    ['white and black', [WHITE, BLACK]],
  ] as const)('%s are found one by one, as wide as they are', (_, colors) => {
    const found = sideBySide(colors, 7);
    expect(found).toHaveLength(colors.length);
    for (const c of found) {
      expect(c.widthPx).toBeGreaterThan(11);
      expect(c.widthPx).toBeLessThan(17);
    }
    const middles = found.map((c) => c.centerline[c.centerline.length >> 1]![1]).sort((a, b) => a - b);
    for (const [k, y] of middles.entries()) expect(Math.abs(y - (100 + 14 * k))).toBeLessThan(3);
  });

  it('twin: one conductor alone stays one', () => {
    const found = sideBySide([RED], 7);
    expect(found).toHaveLength(1);
    expect(Math.abs(found[0]!.widthPx - 14)).toBeLessThan(1);
  });
});
