import { describe, expect, it } from 'vitest';
import type { Conductor, Point, Raster } from '../../src/flow';
import { findConductors, makeTraceable } from '../../src/vision';
import { blank, grain, lay } from './draw';
import { type DrawnConductor, planesOf } from './planes';

type Rgb = readonly [number, number, number];
const GRAY: Rgb = [150, 150, 148];
const RED: Rgb = [190, 30, 35];
const BLUE: Rgb = [30, 60, 160];

interface Drawn extends DrawnConductor {
  readonly color: Rgb;
}

/** Conductors drawn, cut off by dark parts (left, top, right, bottom), and found again. */
function found(drawn: readonly Drawn[], parts: readonly (readonly [number, number, number, number])[] = []) {
  const raster = blank(320, 240, GRAY);
  for (const { path, halfWidth, color } of drawn) lay(raster, path, halfWidth, color);
  const planes = planesOf(raster, drawn);
  for (const box of parts) cover(raster, planes.wire, box);
  grain(raster, 3);
  return findConductors(makeTraceable(raster, planes)).map((one) => one.conductor);
}

function cover(raster: Raster, wire: Float32Array, [left, top, right, bottom]: readonly number[]): void {
  for (let y = top!; y < bottom!; y++)
    for (let x = left!; x < right!; x++) {
      raster.data.set([70, 40, 20, 255], (y * raster.width + x) * 4);
      wire[y * raster.width + x] = 0;
    }
}

/** Kind of the end nearest to a place, of the conductor that reaches nearest to it. */
function endNear(conductors: readonly Conductor[], at: Point, width: number): string {
  const ends = conductors
    .filter((c) => Math.abs(c.widthPx - width) < 4)
    .flatMap(({ centerline, ends }) => [
      { d: distance(centerline[0]!, at), kind: ends[0] },
      { d: distance(centerline.at(-1)!, at), kind: ends[1] },
    ])
    .sort((a, b) => a.d - b.d);
  return ends[0]!.kind;
}

const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

const red = (to: number, bareTip = 0): Drawn => ({
  path: [
    [-20, 120],
    [to, 120],
  ],
  halfWidth: 6,
  color: RED,
  bareTip,
});

describe('what becomes of a conductor at its ends', () => {
  it('tells the open end from the one at the border', () => {
    const one = found([red(210)]);
    expect(endNear(one, [0, 120], 12)).toBe('leaves the picture');
    expect(endNear(one, [210, 120], 12)).toBe('cut end');
  });

  it('tells an end at a part from an end in the open', () => {
    expect(endNear(found([red(230)], [[210, 60, 290, 180]]), [210, 120], 12)).toBe('terminal');
  });

  it('says hidden where another conductor lies across and nothing comes out', () => {
    const across: Drawn = {
      path: [
        [200, -20],
        [200, 260],
      ],
      halfWidth: 14,
      color: BLUE,
    };
    expect(endNear(found([red(200), across]), [190, 120], 12)).toBe('hidden');
  });

  it('takes bare metal at the tip for a cut end in the open and for a terminal at a part', () => {
    expect(endNear(found([red(210, 16)]), [210, 120], 12)).toBe('cut end');
    expect(endNear(found([red(230, 40)], [[210, 60, 290, 180]]), [210, 120], 12)).toBe('terminal');
  });

  it('does not tell where one side looks like what lies ahead and the other does not', () => {
    expect(endNear(found([red(230)], [[100, 130, 320, 240]]), [230, 120], 12)).not.toBe('cut end');
  });
});

describe('crossings', () => {
  const cross = (slope: number, color: Rgb): readonly Conductor[] =>
    found(
      [slope, -slope].map((k, i) => ({
        path: [
          [-10, 120 - 170 * k],
          [330, 120 + 170 * k],
        ],
        halfWidth: 5,
        color: i === 0 ? RED : color,
      })),
    );

  it('is sure at a wide angle, on both conductors alike', () => {
    const [a, b, ...more] = cross(0.7, BLUE);
    expect(more).toHaveLength(0);
    expect(a!.crossings.map((c) => c.with)).toEqual([b!.id]);
    expect(b!.crossings.map((c) => c.with)).toEqual([a!.id]);
    expect(distance(a!.crossings[0]!.at, [160, 120])).toBeLessThan(6);
    expect(a!.crossings[0]!.linkProbability).toBeGreaterThan(0.95);
    expect(a!.crossings[0]!.overProbability + b!.crossings[0]!.overProbability).toBeCloseTo(1, 6);
  });

  it('is less sure between two of one color than between two colors, where they meet at a small angle', () => {
    const least = (list: readonly Conductor[]): number =>
      Math.min(...list.flatMap((c) => c.crossings.filter((x) => x.with !== '').map((x) => x.linkProbability)));
    expect(least(cross(0.3, RED))).toBeLessThan(0.995);
    expect(least(cross(0.3, BLUE))).toBeGreaterThan(least(cross(0.3, RED)));
  });

  it('two that run side by side do not cross', () => {
    const lanes = [100, 112].map((y) => ({
      path: [
        [-10, y],
        [330, y],
      ] as const,
      halfWidth: 5,
      color: RED,
    }));
    for (const c of found(lanes)) expect(c.crossings).toEqual([]);
  });
});
