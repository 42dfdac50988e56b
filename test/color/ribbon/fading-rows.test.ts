import { describe, expect, it } from 'vitest';
import { priorModes } from '../../../src/color/light/estimate-light';
import { summarize } from '../../../src/color/light/posterior';
import { alongOf } from '../../../src/color/naming/along';
import { median } from '../../../src/color/ribbon/cells';
import { type FadedRows, fadedRows } from '../../../src/color/ribbon/fading';
import type { MarkedRows, RibbonMarks } from '../../../src/color/ribbon/marks';
import { readMarks } from '../../../src/color/ribbon/marks';
import { makeFine } from './make-fine';

const ACROSS = 4;

/** Marks of a body whose saturation in row i is `of(i)`; `own` cells of each row belong to it. */
function marksOf(length: number, of: (row: number) => number, own = 4): RibbonMarks {
  const n = length * ACROSS;
  const s = Float32Array.from({ length: n }, (_, k) => of(Math.floor(k / ACROSS)));
  const cells = {
    length,
    across: ACROSS,
    s,
    t: new Float32Array(n),
    z: new Float32Array(n),
    ok: new Uint8Array(n).fill(1),
  };
  const bodyOrTape = [...s.keys()].filter((k) => k % ACROSS < own);
  return { ...readMarks(makeFine({ body: [0.4, 0.03, 0.03] })), cells, bodyOrTape };
}
const fall = (length: number, to: number) => (i: number) => 0.2 * (1 - (1 - to) * (i / (length - 1)));

describe('fading along a body', () => {
  it('is told from 48 rows on, with the end that lost more and what is left there', () => {
    const told = fadedRows(marksOf(48, fall(48, 0.4)), [])!;
    expect(told.fadedAtStart).toBe(false);
    // Middle rows of the outer thirds: row 7 and row 39, the paler of the two middle ones.
    expect(told.left).toBeCloseTo((1 - 0.6 * (39 / 47)) / (1 - 0.6 * (7 / 47)), 6);
    expect(told.clean).toEqual({ from: 0, to: 16 });
    expect(told.cells).toEqual(Array.from({ length: 16 * ACROSS }, (_, k) => k));
    expect(fadedRows(marksOf(47, fall(47, 0.4)), [])).toBeNull();
  });

  it('is the other way round from the other end', () => {
    const told = fadedRows(
      marksOf(60, (i) => fall(60, 0.4)(59 - i)),
      [],
    )!;
    expect(told.fadedAtStart).toBe(true);
    expect(told.clean).toEqual({ from: 40, to: 60 });
    expect(Math.min(...told.cells)).toBe(40 * ACROSS);
  });

  it('needs three cells of body in a row', () => {
    expect(fadedRows(marksOf(60, fall(60, 0.4), 3), [])).not.toBeNull();
    expect(fadedRows(marksOf(60, fall(60, 0.4), 2), [])).toBeNull();
  });

  it('is no trend that turns back, none of a color that is nearly gray, none of less than a quarter', () => {
    expect(
      fadedRows(
        marksOf(60, (i) => (i > 20 && i < 40 ? 0.25 : fall(60, 0.4)(i))),
        [],
      ),
    ).toBeNull();
    expect(
      fadedRows(
        marksOf(60, (i) => 0.25 * fall(60, 0.4)(i)),
        [],
      ),
    ).toBeNull();
    expect(fadedRows(marksOf(60, fall(60, 0.7)), [])).toBeNull();
  });

  it('does not look at what was told of tape', () => {
    const tape: MarkedRows = {
      from: 0,
      to: 20,
      confidence: 0.9,
      cover: 1,
      cells: Array.from({ length: 20 * ACROSS }, (_, k) => k),
    };
    // Pale tape at the start looks like fading; without it nothing fades.
    const taped = marksOf(70, (i) => (i < 20 ? 0.05 + 0.001 * i : 0.2 + 0.0001 * i));
    expect(fadedRows(taped, [])).not.toBeNull();
    expect(fadedRows(taped, [tape])).toBeNull();
  });
});

describe('where a conductor fades, in the picture', () => {
  const LIGHT = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
  const faded: FadedRows = { fadedAtStart: false, left: 0.5, clean: { from: 0, to: 32 }, cells: [] };
  const toward = (to: readonly [number, number], fadedAtStart = false): string => {
    const fine = makeFine({ body: [0.42, 0.025, 0.03] });
    const last = fine.centers.length - 1;
    const centers = fine.centers.map((_, i) => [50 + (to[0] * i) / last, 50 + (to[1] * i) / last] as const);
    const marks = readMarks(fine);
    const sight = {
      base: null,
      split: null,
      backed: true,
      stripe: null,
      tapes: [],
      touchedTape: -1,
      allTape: false,
      bare: [],
      marks,
      faded: { ...faded, fadedAtStart },
    };
    return alongOf({ ...fine, centers }, sight, [], LIGHT).fading!.toward;
  };

  it.each([
    [[30, 10], 'right', 'left'],
    [[-30, 10], 'left', 'right'],
    [[10, 30], 'down', 'up'],
    [[-10, -30], 'up', 'down'],
    [[0, 30], 'down', 'up'],
    [[0, -30], 'up', 'down'],
  ] as const)('running by %s it fades toward %s, and %s when its start has faded', (by, end, start) => {
    expect(toward(by)).toBe(end);
    expect(toward(by, true)).toBe(start);
  });
});

describe('the median', () => {
  it('is the middle value, the upper of the two middle ones, NaN of none', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 2])).toBe(3);
    expect(median([])).toBeNaN();
  });
});
