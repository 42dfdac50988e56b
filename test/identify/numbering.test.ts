import { describe, expect, it } from 'vitest';
import type { BoardNumbering, Role } from '../../src/flow';
import {
  breakerSpaces,
  identify,
  isPoleSpace,
  mayShareNeutral,
  mostSpaces,
  panelBalance,
  panelMap,
  panelPole,
  poleRow,
  poleSide,
  roleMarginals,
} from '../../src/identify';
import { conductors, site } from './make';

/*
 * That boards are numbered so: test/published/panel-phase-pattern.json, rule not-universal (straight down from memory,
 * reversed sides read) and rule bottom-fed (read). Rows of each board follow from where its spaces lie.
 */
const DOWN: BoardNumbering = { order: 'down', rows: 21 };
const COLUMN: BoardNumbering = { order: 'down' };
const TURNED: BoardNumbering = { order: 'upside down' };
const REVERSED: BoardNumbering = { order: 'right side reversed' };

describe('a board numbered straight down', () => {
  it('counts a column from the top: each space is the row below', () => {
    const letters = [1, 2, 3, 4, 5, 6].map((n) => panelPole(n, 'three-phase', COLUMN).slice(-1));
    expect(letters.join('')).toBe('ABCABC');
    // Twin: the usual numbering gives two spaces a row.
    const usual = [1, 2, 3, 4, 5, 6].map((n) => panelPole(n, 'three-phase').slice(-1));
    expect(usual.join('')).toBe('AABBCC');
  });

  it('goes on at the top of the right column: 1 and 22 of 42 lie in one row, on one phase', () => {
    expect([poleRow(1, DOWN), poleSide(1, DOWN)]).toEqual([1, 'left']);
    expect([poleRow(22, DOWN), poleSide(22, DOWN)]).toEqual([1, 'right']);
    // Odd and even say nothing of the side here.
    expect([poleSide(2, DOWN), poleSide(23, DOWN)]).toEqual(['left', 'right']);
    expect(panelPole(22, 'three-phase', DOWN)).toBe('phase A');
    expect(panelPole(42, 'three-phase', DOWN)).toBe('phase C');
    // A column of ten is no whole number of threes: space 11 begins anew with A. Twin: counted on, it would be B.
    expect(panelPole(11, 'three-phase', { order: 'down', rows: 10 })).toBe('phase A');
    expect(panelPole(11, 'three-phase', COLUMN)).toBe('phase B');
  });

  it('has breakers on numbers that follow each other', () => {
    expect(breakerSpaces(7, 3, DOWN)).toEqual([7, 8, 9]);
    expect(breakerSpaces(7, 3)).toEqual([7, 9, 11]);
  });

  it('lets a neutral be shared by spaces below each other, not by two of one row', () => {
    expect(mayShareNeutral([1, 2, 3], 'three-phase', DOWN)).toBe(true);
    expect(mayShareNeutral([1, 22], 'three-phase', DOWN)).toBe(false);
    // Twin: numbered as usual 1 and 2 lie in one row.
    expect(mayShareNeutral([1, 2, 3], 'three-phase')).toBe(false);
  });

  it('ends with its second column', () => {
    expect(mostSpaces(DOWN)).toBe(42);
    expect([isPoleSpace(42, DOWN), isPoleSpace(43, DOWN), isPoleSpace(43)]).toEqual([true, false, true]);
  });
});

describe('a board mounted upside down', () => {
  it('keeps the phases of its stamped numbers and has 1 on the right', () => {
    expect([1, 2, 3, 5].map((n) => panelPole(n, 'three-phase', TURNED))).toEqual(
      [1, 2, 3, 5].map((n) => panelPole(n, 'three-phase')),
    );
    expect([poleSide(1, TURNED), poleSide(2, TURNED)]).toEqual(['right', 'left']);
    expect([poleSide(1), poleSide(2)]).toEqual(['left', 'right']);
  });

  it('is drawn with row 1 at the bottom', () => {
    const cs = conductors('black');
    const k = site({ systems: ['us-208y120'], spaces: { c1: 6 }, board: TURNED });
    const map = panelMap('three-phase', 'us-208y120', cs, identify(cs, k), k);
    expect(map.spaces.map((s) => s.row)).toEqual([3, 3, 2, 2, 1, 1]);
  });
});

describe('a board whose right side is reversed', () => {
  it('runs A, B, C on the left and C, B, A on the right', () => {
    const side = (first: number) =>
      [0, 2, 4].map((n) => panelPole(first + n, 'three-phase', REVERSED).slice(-1)).join('');
    expect([side(1), side(2)]).toEqual(['ABC', 'CBA']);
    expect(panelPole(2, 'single-phase', REVERSED)).toBe('line 2');
  });

  it('lets the two sides of its first row share a neutral, and not those of its second', () => {
    expect(mayShareNeutral([1, 2], 'three-phase', REVERSED)).toBe(true);
    expect(mayShareNeutral([3, 4], 'three-phase', REVERSED)).toBe(false);
  });
});

describe('what a numbering changes', () => {
  const cs = conductors('black', 'black', 'black', 'white');
  const read = (board?: BoardNumbering) => {
    const k = site({ systems: ['us-208y120'], spaces: { c1: 1, c2: 2, c3: 3 }, ...(board && { board }) });
    return identify(cs, k);
  };
  const roles = (board?: BoardNumbering): (Role | undefined)[] =>
    read(board)
      .assignments.slice(0, 3)
      .map((a) => roleMarginals(a)[0]?.role);

  it('is which phase each conductor has', () => {
    expect(roles(COLUMN)).toEqual(['phase A', 'phase B', 'phase C']);
    // Twin: as usual 1 and 2 are one row.
    expect(roles()).toEqual(['phase A', 'phase A', 'phase B']);
  });

  it('is said among the reasons', () => {
    const codes = (board?: BoardNumbering) => read(board).assignments[1]!.because.map((m) => m.code);
    expect(codes(COLUMN)).toContain('identify.because.space-said');
    expect(codes()).toContain('identify.because.space');
    expect(codes()).not.toContain('identify.because.space-said');
  });

  it('is what is found to be swapped, and what loads add up to', () => {
    const colors = conductors('black', 'red', 'blue');
    const faults = (board?: BoardNumbering) => {
      const k = site({ systems: ['us-208y120'], spaces: { c1: 1, c2: 2, c3: 3 }, ...(board && { board }) });
      return panelMap('three-phase', 'us-208y120', colors, identify(colors, k), k).spaces.flatMap((s) =>
        s.conductors.map((c) => c.verdict),
      );
    };
    expect(faults(COLUMN)).toEqual(['as expected', 'as expected', 'as expected']);
    expect(faults()).toEqual(['as expected', 'differs', 'differs']);
    // By hand: spaces 1, 2, 3 straight down are A, B, C, 10 A each; as usual A has 20 A, B 10 A, C none.
    expect(panelBalance({ 1: 10, 2: 10, 3: 10 }, 'three-phase', COLUMN).imbalance).toBe(0);
    expect(panelBalance({ 1: 10, 2: 10, 3: 10 }, 'three-phase').imbalance).toBe(1);
  });

  it('leaves out a space that the board does not have', () => {
    const k = site({ systems: ['us-208y120'], spaces: { c1: 9 }, board: { order: 'down', rows: 4 } });
    const without = site({ systems: ['us-208y120'], board: { order: 'down', rows: 4 } });
    expect(identify(cs, k).assignments[0]!.roles).toEqual(identify(cs, without).assignments[0]!.roles);
  });
});
