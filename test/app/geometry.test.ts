import { describe, expect, test } from 'vitest';
import { conductorAt } from '../../src/app/geometry/hit';
import { joinConductors } from '../../src/app/geometry/join';
import { mainConductor } from '../../src/app/geometry/main-conductor';
import { placeTags, TAG_HALF_HEIGHT } from '../../src/app/geometry/place-tags';
import {
  bandAround,
  cutPolyline,
  joinPolylines,
  middle,
  pointAlong,
  polylineLength,
} from '../../src/app/geometry/polyline';
import { splitConductor } from '../../src/app/geometry/split';
import { straighten } from '../../src/app/geometry/straighten';
import { keepInside, MAX_SCALE, pan, toPicture, toWindow, wholeView, zoomAt } from '../../src/app/geometry/view';
import { nearestOnPolyline, type Point } from '../../src/flow';
import { conductor, findings, upright } from './fixtures/findings';

const LINE: readonly Point[] = [
  [0, 0],
  [30, 40],
  [30, 140],
];

describe('polylines', () => {
  test('length, middle and ends', () => {
    expect(polylineLength(LINE)).toBe(150);
    expect(middle(LINE)).toEqual([30, 65]);
    expect(pointAlong(LINE, -5)).toEqual([0, 0]);
    expect(pointAlong(LINE, 1000)).toEqual([30, 140]);
  });

  test('nearest point, also beside a corner and beyond an end', () => {
    expect(nearestOnPolyline(LINE, [40, 90])).toEqual({ point: [30, 90], distance: 10, along: 100 });
    expect(nearestOnPolyline(LINE, [30, 150])?.distance).toBe(10);
    expect(nearestOnPolyline([], [0, 0])).toBeNull();
  });

  test('cutting keeps the length and meets at the cut; a shifted cut does not', () => {
    const [head, tail] = cutPolyline(LINE, 90);
    expect(polylineLength(head) + polylineLength(tail)).toBeCloseTo(150, 9);
    expect(head.at(-1)).toEqual(tail[0]);
    expect(polylineLength(cutPolyline(LINE, 80)[0])).not.toBeCloseTo(polylineLength(head), 3);
  });

  test('joining turns the parts so that the nearest ends meet', () => {
    const [head, tail] = cutPolyline(LINE, 90);
    expect(polylineLength(joinPolylines(tail.toReversed(), head.toReversed()))).toBeCloseTo(150, 9);
    expect(polylineLength([...tail, ...head])).toBeGreaterThan(200);
  });

  test('a band of a straight line is a rectangle of its width', () => {
    expect(
      bandAround(
        [
          [0, 0],
          [0, 10],
        ],
        4,
      ),
    ).toEqual([
      [-2, 0],
      [-2, 10],
      [2, 10],
      [2, 0],
    ]);
  });
});

describe('view', () => {
  const picture = { width: 800, height: 600 };
  const window = { width: 400, height: 400 };

  test('starts whole and centered', () => {
    expect(wholeView(picture, window)).toEqual({ scale: 0.5, x: 0, y: 50 });
  });

  test('zooming keeps the place under the finger', () => {
    const start = wholeView(picture, window);
    const at: Point = [210, 190];
    const under = toPicture(start, at);
    const closer = zoomAt(start, at, 4, picture, window);
    const [x, y] = toWindow(closer, under);
    expect(x).toBeCloseTo(210, 6);
    expect(y).toBeCloseTo(190, 6);
    const [otherX] = toWindow(closer, [under[0] + 10, under[1]]);
    expect(otherX).toBeCloseTo(230, 6);
  });

  test('never smaller than whole, never closer than the limit', () => {
    const start = wholeView(picture, window);
    expect(zoomAt(start, [0, 0], 0.1, picture, window).scale).toBe(0.5);
    expect(zoomAt(start, [0, 0], 1e6, picture, window).scale).toBe(MAX_SCALE);
  });

  test('panning stops at the edges', () => {
    const close = keepInside({ scale: 2, x: -100, y: -100 }, picture, window);
    expect(pan(close, 5000, 5000, picture, window)).toEqual({ scale: 2, x: 0, y: 0 });
    expect(pan(close, -5000, -5000, picture, window)).toEqual({ scale: 2, x: -1200, y: -800 });
  });
});

describe('touching', () => {
  const two = [upright('a', 100), upright('b', 130)];

  test('the nearer of two neighbors is meant', () => {
    expect(conductorAt(two, [108, 300], 30)?.id).toBe('a');
    expect(conductorAt(two, [122, 300], 30)?.id).toBe('b');
  });

  test('a touch well beside is none, however far the thumb reaches', () => {
    expect(conductorAt(two, [60, 300], 100)).toBeNull();
  });

  test('the main conductor is the thick one near the middle', () => {
    const thick = { ...upright('thick', 420), widthPx: 90 };
    expect(mainConductor(findings([upright('a', 20), thick, upright('c', 790)]))?.id).toBe('thick');
    expect(mainConductor(findings([]))).toBeNull();
  });
});

describe('splitting and joining', () => {
  test('parts share the cut, lose the word, and join again to the whole length', () => {
    const whole = { ...upright('a', 100), userWord: { name: 'red', by: 'x', at: 'now' } as const };
    const parts = splitConductor(whole, [110, 200])!;
    expect(parts.map((p) => p.id)).toEqual(['aa', 'ab']);
    expect(parts.map((p) => polylineLength(p.centerline))).toEqual([200, 400]);
    expect(parts[0].ends).toEqual(['leaves the picture', 'unknown']);
    expect(parts[0]).not.toHaveProperty('userWord');
    expect(polylineLength(joinConductors(...parts).centerline)).toBe(600);
  });

  test('no part shorter than it is wide', () => {
    expect(splitConductor(upright('a', 100), [100, 10])).toBeNull();
    expect(splitConductor(upright('a', 100), [100, 21])).not.toBeNull();
  });

  test('a joined conductor takes the color of the longer length', () => {
    const short = conductor(
      's',
      [
        [0, 0],
        [0, 50],
      ],
      'red',
    );
    const long = conductor(
      'l',
      [
        [0, 60],
        [0, 300],
      ],
      'blue',
    );
    expect(joinConductors(short, long).insulation.best).toBe('blue');
  });
});

describe('straightening', () => {
  test('a diagonal of one color comes out as one color, its surroundings do not', () => {
    const size = 60;
    const data = new Uint8ClampedArray(size * size * 4).fill(255);
    for (let y = 0; y < size; y++) {
      for (let x = 0; x < size; x++) {
        if (Math.abs(x - y) <= 7) data.set([200, 0, 0, 255], (y * size + x) * 4);
      }
    }
    const raster = { width: size, height: size, data };
    const line: readonly Point[] = [
      [10, 10],
      [50, 50],
    ];
    const reds = (width: number): number => {
      const strip = straighten(raster, line, width, 20, 5);
      return strip.data.filter((value, i) => i % 4 === 1 && value === 0).length;
    };
    expect(reds(6)).toBe(100);
    expect(reds(24)).toBeLessThan(100);
  });

  test('a line that wavers by a pixel shows straight edges; one that leaves the conductor does not', () => {
    const [width, height] = [120, 40];
    const data = new Uint8ClampedArray(width * height * 4).fill(255);
    for (let y = 15; y < 25; y++) for (let x = 0; x < width; x++) data.set([200, 0, 0, 255], (y * width + x) * 4);
    const edge = (waver: number): number => {
      const line = Array.from({ length: 49 }, (_, k): Point => [5 + 2.25 * k, 20 + (k % 2 ? waver : -waver)]);
      const { data: cells } = straighten({ width, height, data }, line, 10, 200, 48);
      // Rows of the strip in which the upper edge lies: as many as it wavers by.
      const first = Array.from({ length: 180 }, (_, i) => {
        for (let j = 0; j < 48; j++) if (cells[(j * 200 + i + 10) * 4 + 1] === 0) return j;
        return 48;
      });
      return Math.max(...first) - Math.min(...first);
    };
    expect(edge(0)).toBe(0);
    expect(edge(1)).toBeLessThanOrEqual(4);
    expect(edge(8)).toBeGreaterThan(8);
  });
});

describe('tags', () => {
  const row = (n: number, gap: number) =>
    Array.from({ length: n }, (_, i) => ({
      id: `c${i}`,
      label: String(i + 1),
      line: [
        [20 + i * gap, 0],
        [20 + i * gap, 200],
      ] as const,
    }));

  test('no two overlap', () => {
    const placed = [...placeTags(row(12, 12), null).values()].map((tag) => tag.at);
    for (const [i, a] of placed.entries())
      for (const b of placed.slice(i + 1))
        expect(Math.abs(a[0] - b[0]) > 12 || Math.abs(a[1] - b[1]) >= 2 * TAG_HALF_HEIGHT).toBe(true);
    expect(placed.length).toBeGreaterThan(9);
  });

  test('the selected one always has its place in the middle', () => {
    expect(placeTags(row(40, 1), 'c39').get('c39')?.at).toEqual([59, 100]);
    expect(placeTags(row(40, 1), null).get('c39')?.at).not.toEqual([59, 100]);
  });

  test('in a crowd every number has a place before any tag says more, and those beside lead to their conductor', () => {
    const crowd = row(40, 9).map((item, i) => ({ ...item, label: `${i + 1} A 88 %`, short: `${i + 1}` }));
    const placed = placeTags(crowd, null);
    expect(placed.size).toBe(40);
    expect([...placed.values()].every((tag) => !tag.text.endsWith('%'))).toBe(true);
    const inside = placeTags(crowd, null, { width: 390, height: 200 });
    expect([...inside.values()].every(({ at }) => at[0] >= 9 && at[1] >= TAG_HALF_HEIGHT)).toBe(true);
    expect(inside.size).toBe(40);
    const wide = row(6, 80).map((item, i) => ({ ...item, label: `${i + 1} A 88 %`, short: `${i + 1}` }));
    // Twin: with room, each says all it has to say, on its own conductor.
    expect([...placeTags(wide, null).values()].every((tag) => tag.text.endsWith('%') && !tag.leader)).toBe(true);
    for (const [id, tag] of placed) {
      const line = crowd.find((item) => item.id === id)?.line ?? [];
      const foot = tag.leader ?? tag.at;
      expect(nearestOnPolyline(line, foot)?.distance ?? 99).toBeLessThan(1e-6);
    }
  });
});
