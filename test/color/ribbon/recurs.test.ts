import { describe, expect, it } from 'vitest';
import { agreementOf, linesAlong, recurs, type TwoColorGrid, winds } from '../../../src/color/ribbon/recurs';
import { seeded } from '../make-ribbon';

const ACROSS = 12;

/** Cells of a conductor `diameters` long; `second` says where the second color lies, in diameters along and -1..1 across. */
function grid(diameters: number, second: (along: number, across: number) => boolean, wrong = 0) {
  const random = seeded(5);
  const length = diameters * ACROSS;
  const cells = new Uint8Array(length * ACROSS);
  for (let k = 0; k < cells.length; k++) {
    const isSecond = second(Math.floor(k / ACROSS) / ACROSS, ((k % ACROSS) + 0.5) / (ACROSS / 2) - 1);
    cells[k] = isSecond !== random() < wrong ? 2 : 1;
  }
  return { length, across: ACROSS, cells, perDiameter: ACROSS };
}

const every = (pitch: number, share: number) => (along: number) => (along / pitch) % 1 < share;

describe('a second color that goes on as a stripe does', () => {
  const stripes: Readonly<Record<string, (along: number, across: number) => boolean>> = {
    'one along': (_, across) => Math.abs(across) < 0.2,
    'three along': (_, across) => [-0.6, 0, 0.6].some((at) => Math.abs(across - at) < 0.12),
    'one along that turns slowly with a twisted conductor': (along, across) =>
      Math.abs(across + 0.7 - along * 0.1) < 0.2,
    rings: every(3, 0.3),
    // Two thirds of the seen half pass while the far side takes the rest of a turn: asin would be exact, a line will do.
    spiral: (along, across) => ((along + 0.8 * across + 8) / 4) % 1 < 0.25,
    dashes: (along, across) => Math.abs(across) < 0.25 && every(2, 0.5)(along),
  };
  for (const [name, where] of Object.entries(stripes)) {
    it(`${name}`, () => expect(recurs(grid(12, where))).toBe(true));
    it(`${name}, one cell in fifteen misread`, () => expect(recurs(grid(12, where, 0.065))).toBe(true));
  }

  const others: Readonly<Record<string, (along: number, across: number) => boolean>> = {
    'one color': () => false,
    'a trace that runs onto another conductor': (along) => along > 7,
    'one that crosses': (along, across) => Math.abs(along - 5 - across) < 0.6,
    'a marker in the middle': (along) => along > 3 && along < 8,
    'a neighbor that comes near at one end': (along, across) =>
      across > 0.9 - 0.1 * Math.max(0, along - 6) && along > 6,
    'two that cross at odd places': (along) => Math.abs(along - 1) < 0.4 || Math.abs(along - 9.5) < 1,
  };
  for (const [name, where] of Object.entries(others))
    it(`twin: not ${name}`, () => expect(recurs(grid(12, where))).toBe(false));

  it('twin: not noise, whatever its share', () => {
    for (const share of [0.1, 0.3, 0.5]) expect(recurs(grid(12, () => false, share))).toBe(false);
  });

  it('a single ring of what repeats is not enough', () => {
    expect(recurs(grid(4, every(5, 0.2)))).toBe(false);
    expect(recurs(grid(12, every(5, 0.2)))).toBe(true);
  });

  it('lines that run along are counted side by side, and dashes told from lines without a gap', () => {
    const of = (name: string, wrong = 0) => linesAlong(grid(12, stripes[name]!, wrong));
    expect(of('one along')).toEqual({ count: 1, dashed: false });
    expect(of('three along')).toEqual({ count: 3, dashed: false });
    expect(of('three along', 0.065)).toEqual({ count: 3, dashed: false });
    expect(of('one along that turns slowly with a twisted conductor')).toEqual({ count: 1, dashed: false });
    expect(of('dashes')).toEqual({ count: 1, dashed: true });
    expect(linesAlong(grid(12, () => false)).count).toBe(1);
  });

  it('of nothing, nothing', () => {
    expect(recurs({ length: 0, across: ACROSS, cells: new Uint8Array(0), perDiameter: ACROSS })).toBe(false);
  });

  it('a spiral of wide pitch winds round', () => {
    // The seen half of a turn of ten diameters: from rim to rim in five, then out of sight for five.
    const spiral = (along: number, across: number) => Math.abs((along % 10) / 2.5 - 1 - across) < 0.2;
    expect(winds(grid(40, spiral))).toBe(true);
  });
  it('twin: dashes, a line and rings do not', () => {
    for (const name of ['dashes', 'one along', 'rings']) expect(winds(grid(12, stripes[name]!))).toBe(false);
    expect(winds(grid(12, () => false))).toBe(false);
  });
});

/** Cohen's kappa of a grid with itself `rows` on, cell by cell. */
function plainAgreement({ length, across, cells }: TwoColorGrid, rows: number): number {
  const counts = [0, 0, 0, 0];
  for (let k = 0; k + rows * across < length * across; k++) {
    const [here, there] = [cells[k]!, cells[k + rows * across]!];
    if (here && there) counts[2 * (here - 1) + (there - 1)]!++;
  }
  const [a, b, c, d] = counts as [number, number, number, number];
  const n = a + b + c + d;
  const chance = ((a + b) * (a + c) + (c + d) * (b + d)) / n ** 2;
  return n > 0 && chance < 1 - 1e-9 ? ((a + d) / n - chance) / (1 - chance) : 0;
}

describe('agreement counted 32 cells at a time', () => {
  const random = seeded(17);
  const mixed = (length: number, across: number, kinds: number): TwoColorGrid => ({
    length,
    across,
    cells: Uint8Array.from({ length: length * across }, () => Math.floor(kinds * random())),
    perDiameter: across,
  });

  it('is that counted one by one, whatever the size, at every distance', () => {
    for (const [length, across] of [
      [1, 1],
      [5, 7],
      [32, 1],
      [40, 11],
      [48, 12],
      [31, 16],
    ] as const)
      for (const kinds of [3, 2, 1]) {
        const grid = mixed(length, across, kinds);
        const quick = agreementOf(grid);
        for (let rows = 0; rows <= length; rows++) expect(quick(rows)).toBe(plainAgreement(grid, rows));
      }
  });

  it('twin: one cell read otherwise changes it', () => {
    const grid = mixed(48, 12, 3);
    const at = grid.cells.indexOf(1, 200);
    const other = { ...grid, cells: grid.cells.map((v, k) => (k === at ? 2 : v)) };
    expect(agreementOf(other)(4)).not.toBe(plainAgreement(grid, 4));
  });
});
