import { describe, expect, it } from 'vitest';
import type { Point, Raster } from '../../src/flow';
import { forDiskRows, lookApart, lookAt, lookDistance, makeField, zeroPlane } from '../../src/vision/trace/field';
import { between, seeded } from '../hard/random';
import { planesOf } from './planes';

const [WIDTH, HEIGHT] = [40, 30];

function speckled(seed: number): Raster {
  const next = seeded(seed);
  const data = Uint8ClampedArray.from({ length: WIDTH * HEIGHT * 4 }, () => between(next, 0, 255));
  return { width: WIDTH, height: HEIGHT, data };
}

const field = makeField(planesOf(speckled(1), []), speckled(1));

describe('the look of a pixel', () => {
  it('is as far from another as the distance of both looks, for every pixel', () => {
    const here = lookAt(field, 7);
    for (let i = 0; i < WIDTH * HEIGHT; i++)
      expect(lookApart(field, here, i)).toBe(lookDistance(here, lookAt(field, i)));
  });

  it('is its lightness and its chroma over that, in single precision', () => {
    const raster = { width: 1, height: 1, data: Uint8ClampedArray.of(200, 100, 50, 255) };
    const look = lookAt(makeField(planesOf(raster, []), raster), 0);
    expect(look).toEqual([112.5, Math.fround(1e4 / 152.5), Math.fround(1e4 / 152.5)]);
  });

  it('is not that of the pixel beside it (twin)', () => {
    expect(lookApart(field, lookAt(field, 7), 7)).toBe(0);
    expect(lookApart(field, lookAt(field, 7), 8)).toBeGreaterThan(1);
  });
});

/** Every pixel of the picture within a radius in whole steps, looked for one by one. */
function plainDisk([x, y]: Point, radius: number): number[] {
  const found: number[] = [];
  for (let i = 0; i < WIDTH * HEIGHT; i++) {
    const ox = (i % WIDTH) - Math.floor(x);
    const oy = Math.floor(i / WIDTH) - Math.floor(y);
    if (ox * ox + oy * oy <= radius * radius) found.push(i);
  }
  return found;
}

function byRows(at: Point, radius: number): number[] {
  const found: number[] = [];
  forDiskRows(field, at, radius, (from, to) => {
    expect(to).toBeGreaterThan(from);
    for (let i = from; i < to; i++) found.push(i);
  });
  return found;
}

describe('a disk by its rows', () => {
  const next = seeded(3);
  const places = Array.from({ length: 60 }, (): [Point, number] => [
    [next() * WIDTH, next() * HEIGHT],
    0.5 + 12 * next(),
  ]);

  it('is every pixel of the picture within the radius, once', () => {
    for (const [at, radius] of places) expect(byRows(at, radius)).toEqual(plainDisk(at, radius));
  });

  it('stays in the picture where its middle does not', () => {
    for (const at of [
      [-3, 5],
      [WIDTH + 2, 5],
      [5, -4],
      [5, HEIGHT + 3],
    ] as const)
      expect(byRows(at, 6)).toEqual(plainDisk(at, 6));
    expect(byRows([-30, 5], 6)).toEqual([]);
  });

  it('is not that of another radius (twin)', () => {
    expect(byRows([20, 15], 6)).not.toEqual(plainDisk([20, 15], 7));
  });
});

it('a plane of zeros is all zeros, whatever was written into the one before', () => {
  zeroPlane(field).fill(5);
  const plane = zeroPlane(field);
  expect(plane).toHaveLength(WIDTH * HEIGHT);
  expect(plane.every((v) => v === 0)).toBe(true);
});
