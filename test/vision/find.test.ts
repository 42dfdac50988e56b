import { describe, expect, it } from 'vitest';
import type { Point, Raster } from '../../src/flow';
import {
  claiming,
  createClassicalSegmenter,
  findConductors,
  liveMats,
  makeTraceable,
  ribbonNear,
  ribbonOf,
  type TracedConductor,
  traceStroke,
  traceTap,
} from '../../src/vision';
import { arc, blank, grain, lay } from './draw';

const QUALITY = { noiseLevel: 2, blurPx: 0.7 };
const GRAY = [150, 150, 148] as const;
const RED = [190, 30, 35] as const;
const BLUE = [30, 60, 160] as const;

async function open(raster: Raster) {
  const planes = await createClassicalSegmenter().segment(raster);
  return makeTraceable(raster, planes);
}

const passes = (one: TracedConductor, at: Point, within: number): boolean =>
  one.trace.points.some((p) => p.seen && Math.hypot(p.at[0] - at[0], p.at[1] - at[1]) <= within);

describe('finding conductors with nobody pointing', () => {
  it('finds one bent conductor as one, with its width and middle', async () => {
    const raster = blank(320, 240, GRAY);
    lay(raster, [[20, 200], ...arc(160, 200, 100, Math.PI, 2 * Math.PI), [260, 238]], 6, RED);
    grain(raster, 4);
    const found = findConductors(await open(raster));
    expect(found).toHaveLength(1);
    expect(found[0]!.conductor.widthPx).toBeGreaterThan(9);
    expect(found[0]!.conductor.widthPx).toBeLessThan(15);
    expect(passes(found[0]!, [160, 100], 2.5)).toBe(true);
  });

  it('keeps two crossing conductors apart and follows the lower one through', async () => {
    const raster = blank(320, 240, GRAY);
    lay(
      raster,
      [
        [10, 30],
        [310, 210],
      ],
      5,
      BLUE,
    );
    lay(
      raster,
      [
        [10, 200],
        [310, 40],
      ],
      5,
      RED,
    );
    grain(raster, 3);
    const found = findConductors(await open(raster));
    expect(found).toHaveLength(2);
    const lower = found.find((f) => passes(f, [40, 48], 3));
    expect(lower && passes(lower, [280, 192], 3)).toBe(true);
    expect(lower?.conductor.crossings.map((c) => c.with)).toContain(found.find((f) => f !== lower)?.conductor.id);
  });

  it('finds nothing on a plain wall, in noise, and in lettering-like blocks', async () => {
    const wall = blank(200, 150, GRAY);
    const noise = blank(200, 150, GRAY);
    grain(noise, 40);
    const blocks = blank(200, 150, [235, 235, 230]);
    for (let k = 0; k < 12; k++)
      lay(
        blocks,
        [
          [12 + k * 15, 60],
          [12 + k * 15, 68],
        ],
        2,
        [20, 20, 20],
      );
    for (const raster of [wall, noise, blocks]) expect(findConductors(await open(raster))).toHaveLength(0);
  });

  it('gives every Mat back, also when cancelled', async () => {
    const raster = blank(120, 90, GRAY);
    const stop = new AbortController();
    stop.abort();
    await expect(createClassicalSegmenter().segment(raster, stop.signal)).rejects.toMatchObject({ kind: 'cancelled' });
    await createClassicalSegmenter().segment(raster);
    expect(liveMats()).toBe(0);
  });

  it('is deterministic', async () => {
    const raster = blank(200, 150, GRAY);
    lay(
      raster,
      [
        [10, 30],
        [190, 120],
      ],
      5,
      BLUE,
    );
    const twice = [findConductors(await open(raster)), findConductors(await open(raster))];
    expect(twice[0]!.map((f) => f.conductor)).toEqual(twice[1]!.map((f) => f.conductor));
  });
});

describe('outlines around what a conductor may claim', () => {
  /** A level conductor from x = 20 to x = 300, and which x its outlines reach. */
  async function level() {
    const raster = blank(320, 120, GRAY);
    lay(
      raster,
      [
        [20, 60],
        [300, 60],
      ],
      5,
      RED,
    );
    grain(raster, 3);
    const traceable = await open(raster);
    const [one] = findConductors(traceable);
    return { one: one!, rows: ribbonOf(traceable, one!, QUALITY).length };
  }
  const reach = (outlines: readonly (readonly Point[])[]): readonly [number, number] => {
    const xs = outlines.flat().map((p) => p[0]);
    return [Math.min(...xs), Math.max(...xs)];
  };

  it('leave out the rows that are not its own, and nothing else of the conductor', async () => {
    const { one, rows } = await level();
    const half = claiming(
      one,
      Uint8Array.from({ length: rows }, (_, k) => Number(k < rows / 2)),
    );
    const [from, to] = reach(one.conductor.outlines);
    const steps = one.trace.points.filter((p) => p.seen).map((p) => p.at[0]);
    const [left, right] = reach(half.outlines);
    const [first, middle] = [steps[0]!, steps[steps.length >> 1]!];
    expect(Math.abs(left - Math.min(first, middle))).toBeLessThan(8);
    expect(Math.abs(right - Math.max(first, middle))).toBeLessThan(8);
    expect(right - left).toBeLessThan(0.7 * (to - from));
    expect({ ...half, outlines: one.conductor.outlines }).toEqual(one.conductor);
    // A hole in the middle leaves both ends.
    const hole = claiming(
      one,
      Uint8Array.from({ length: rows }, (_, k) => Number(Math.abs(k / rows - 0.5) > 0.2)),
    );
    expect(reach(hole.outlines)).toEqual([from, to]);
    const around = hole.outlines.flat().filter(([x]) => Math.abs(x - middle) < 0.15 * (to - from));
    expect(around).toEqual([]);
  });

  it('twin: are the same where every row is its own, or none is', async () => {
    const { one, rows } = await level();
    expect(claiming(one, new Uint8Array(rows).fill(1))).toEqual(one.conductor);
    expect(claiming(one, new Uint8Array(rows))).toEqual(one.conductor);
  });
});

describe('tracing from a tap', () => {
  it('traces the conductor under the finger, not its neighbor', async () => {
    const raster = blank(320, 240, GRAY);
    lay(
      raster,
      [
        [10, 100],
        [310, 100],
      ],
      5,
      BLUE,
    );
    lay(
      raster,
      [
        [10, 111],
        [310, 111],
      ],
      5,
      RED,
    );
    grain(raster, 3);
    const traceable = await open(raster);
    const blue = traceTap(traceable, [160, 100])!;
    expect(blue.conductor.origin).toBe('tapped');
    expect(blue.trace.points.every((p) => Math.abs(p.at[1] - 100) < 4)).toBe(true);
    const ribbon = ribbonNear(traceable, blue, [160, 100], QUALITY);
    const middle = (ribbon.length >> 1) * ribbon.across + (ribbon.across >> 1);
    expect(ribbon.rgb[middle * 3 + 2]!).toBeGreaterThan(3 * ribbon.rgb[middle * 3]!);
  });

  it('answers from color alone where the segmentation sees nothing, and nothing outside the picture', async () => {
    const traceable = await open(blank(100, 80, GRAY));
    expect(traceTap(traceable, [50, 40])?.trace.points.length).toBeGreaterThan(1);
    expect(traceTap(traceable, [-5, 40])).toBeUndefined();
  });

  it('believes a drawn stroke', async () => {
    const raster = blank(200, 150, [40, 40, 40]);
    lay(
      raster,
      [
        [20, 75],
        [180, 75],
      ],
      4,
      [46, 44, 42],
    );
    const drawn = traceStroke(await open(raster), [
      [30, 75],
      [100, 76],
      [170, 75],
    ]);
    expect(drawn?.conductor.origin).toBe('drawn');
    expect(drawn && passes(drawn, [100, 76], 2)).toBe(true);
  });
});

describe('ribbon', () => {
  it('straightens a bend: every row is rim, body, rim of one color', async () => {
    const raster = blank(320, 240, GRAY);
    lay(raster, arc(160, 200, 100, Math.PI, 2 * Math.PI), 8, RED);
    const traceable = await open(raster);
    const ribbon = ribbonOf(traceable, findConductors(traceable)[0]!, QUALITY);
    const center = ribbon.across >> 1;
    for (let row = 2; row < ribbon.length - 2; row++) {
      const at = (row * ribbon.across + center) * 3;
      expect(ribbon.rgb[at]! / (ribbon.rgb[at + 2]! + 1e-4)).toBeGreaterThan(5);
    }
  });

  it('marks clipped samples unusable', async () => {
    const raster = blank(200, 100, [90, 90, 90]);
    lay(
      raster,
      [
        [10, 50],
        [190, 50],
      ],
      6,
      [255, 255, 255],
    );
    const traceable = await open(raster);
    const ribbon = ribbonNear(traceable, traceTap(traceable, [100, 50])!, [100, 50], QUALITY);
    const center = ribbon.across >> 1;
    const usable = Array.from({ length: ribbon.length }, (_, row) => ribbon.usable[row * ribbon.across + center]!);
    expect(Math.max(...usable)).toBe(0);
  });
});
