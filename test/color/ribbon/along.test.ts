import { describe, expect, it } from 'vitest';
import { priorModes } from '../../../src/color/light/estimate-light';
import { summarize } from '../../../src/color/light/posterior';
import { alongOf } from '../../../src/color/naming/along';
import { type Body, ribbonBody } from '../../../src/color/ribbon/body';
import { fadedRows } from '../../../src/color/ribbon/fading';
import type { MarkedRows } from '../../../src/color/ribbon/marks';
import { readMarks } from '../../../src/color/ribbon/marks';
import type { Sight } from '../../../src/color/ribbon/sight';
import type { FineRibbon } from '../../../src/flow';
import { makeRibbon } from '../make-ribbon';
import { makeFine, type Rgb } from './make-fine';

const LIGHT = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
const metal = (rgb: Rgb): Body => ribbonBody(makeRibbon({ body: rgb }))!;
const rows = (from: number, to: number): MarkedRows => ({ from, to, confidence: 0.8, cover: 1, cells: [] });

/** A sight in which nothing but these stretches of bare metal was found. */
const sightWith = (fine: FineRibbon, bare: readonly { mark: MarkedRows; body: Body }[]): Sight => {
  const marks = readMarks(fine);
  const told = bare.map(({ mark }) => mark);
  const nothing = {
    base: null,
    split: null,
    backed: true,
    stripe: null,
    tapes: [],
    touchedTape: -1,
    allTape: false,
  } as const;
  return { ...nothing, bare, marks, faded: fadedRows(marks, told) };
};

describe('bare metal along a conductor', () => {
  const fine = makeFine({ body: [0.42, 0.025, 0.03] });
  const told = (mark: MarkedRows, rgb: Rgb) =>
    alongOf(fine, sightWith(fine, [{ mark, body: metal(rgb) }]), [metal(rgb)], LIGHT).bare[0]!;

  it('is copper where it is reddish yellow, tin or aluminum where gray, and not decided between or where bluish', () => {
    // Reflectances of polished metals at 650, 550 and 450 nm: copper about 0.95, 0.6, 0.55; tin and aluminum even (from memory).
    expect(told(rows(0, 20), [0.5, 0.28, 0.2]).metal).toBe('copper');
    expect(told(rows(0, 20), [0.4, 0.4, 0.4]).metal).toBe('tinned copper or aluminum');
    expect(told(rows(0, 20), [0.42, 0.4, 0.36]).metal).not.toBe('copper');
    expect(told(rows(0, 20), [0.2, 0.3, 0.5]).metal).toBe('not decided');
  });

  it('lies at an end or in the middle, and is as long as it was drawn', () => {
    expect(told(rows(0, 20), [0.4, 0.4, 0.4]).place).toBe('end');
    expect(told(rows(70, 96), [0.4, 0.4, 0.4]).place).toBe('end');
    const middle = told(rows(36, 60), [0.4, 0.4, 0.4]);
    expect(middle.place).toBe('middle');
    // 24 of 96 rows; rows are as long as cells are wide, 12 of which make a diameter.
    expect(middle.stretch).toEqual([36 / 96, 60 / 96]);
    expect(middle.diameters).toBeCloseTo(2, 9);
  });

  it('may be a ferrule where a short collar sits between it and the insulation', () => {
    const at = (bare: MarkedRows, collar: MarkedRows, length = 96) => {
      const long = makeFine({ body: [0.42, 0.025, 0.03], length });
      const sight = sightWith(long, [{ mark: bare, body: metal([0.4, 0.4, 0.4]) }]);
      const tapes = [{ mark: collar, body: metal([0.03, 0.08, 0.42]) }];
      return alongOf(long, { ...sight, tapes }, [metal([0.4, 0.4, 0.4])], LIGHT).bare[0]!.fitting;
    };
    expect(at(rows(0, 30), rows(31, 55))).toBe('ferrule');
    expect(at(rows(70, 96), rows(46, 68))).toBe('ferrule');
    // Twins: the collar on the outer side, too far off, too long; metal too long; in the middle.
    expect(at(rows(30, 50), rows(0, 29))).toBeUndefined();
    expect(at(rows(0, 30), rows(50, 70))).toBeUndefined();
    expect(at(rows(0, 30), rows(31, 90))).toBeUndefined();
    expect(at(rows(0, 90), rows(91, 110), 192)).toBeUndefined();
    expect(at(rows(80, 100), rows(101, 120), 192)).toBeUndefined();
  });

  it('legend print is told by where it lies', () => {
    const sight = sightWith(fine, []);
    const along = alongOf(fine, { ...sight, marks: { ...sight.marks!, print: [{ from: 24, to: 48 }] } }, [], LIGHT);
    expect(along.print).toEqual([[0.25, 0.5]]);
    expect(alongOf(fine, sight, [], LIGHT).print).toEqual([]);
  });

  it('twin: without marks there is no word of fading, and nothing bare where nothing was found', () => {
    const plain = alongOf(fine, { ...sightWith(fine, []), marks: null, faded: null }, [], LIGHT);
    expect(plain.fading).toBeNull();
    expect(plain.bare).toEqual([]);
    expect(plain.diameters).toBeCloseTo(8, 9);
  });
});

describe('fading', () => {
  const pale = (k: number): Rgb => [0.42 + 0.2 * k, 0.025 + 0.35 * k, 0.03 + 0.33 * k];
  const faded = (from: 'start' | 'end'): FineRibbon => {
    const share = (k: number): number => (from === 'start' ? 11 - k : k) / 11;
    const on = Array.from({ length: 12 }, (_, k) => ({
      rgb: pale(share(k)),
      where: (i: number) => i >= k * 16 && i < (k + 1) * 16,
    }));
    return makeFine({ body: pale(0), length: 192, on });
  };
  const toward = (fine: FineRibbon) => alongOf(fine, sightWith(fine, []), [], LIGHT).fading?.toward;
  const turned = (fine: FineRibbon, [dx, dy]: readonly [number, number]): FineRibbon => ({
    ...fine,
    centers: fine.centers.map((_, i) => [200 + i * dx, 200 + i * dy] as const),
  });

  it('is told by the way it lies in the photo, whichever end the trace began at', () => {
    const ways = [
      [1, 0, 'left', 'right'],
      [-1, 0, 'right', 'left'],
      [0, 1, 'up', 'down'],
      [0, -1, 'down', 'up'],
    ] as const;
    for (const [dx, dy, start, end] of ways) {
      expect(toward(turned(faded('start'), [dx, dy]))).toBe(start);
      expect(toward(turned(faded('end'), [dx, dy]))).toBe(end);
    }
  });

  it('twin: one that is pale in the middle only does not fade toward an end', () => {
    const on = Array.from({ length: 12 }, (_, k) => ({
      rgb: pale(1 - Math.abs(k - 5.5) / 5.5),
      where: (i: number) => i >= k * 16 && i < (k + 1) * 16,
    }));
    expect(toward(makeFine({ body: pale(0), length: 192, on }))).toBeUndefined();
  });
});
