import type { BoardNumbering, Role, SystemId } from '../../flow';
import { SYSTEMS } from '../data/systems';

/** How the buses of a panelboard lie behind its pole spaces. */
export type PanelKind = 'three-phase' | 'single-phase' | 'high leg on B' | 'high leg on A';

/** Highest pole space of a board that is taken as meant (NEC 408.36 long capped boards at 42; larger ones exist). */
export const MOST_SPACES = 84;

/** Highest pole space that a board so numbered can have: one numbered straight down ends with its second column. */
export const mostSpaces = (board?: BoardNumbering): number =>
  board?.order === 'down' && board.rows !== undefined ? Math.min(MOST_SPACES, 2 * board.rows) : MOST_SPACES;

/** Is this the number of a pole space? Whatever else a record or a form holds says nothing of a board. */
export const isPoleSpace = (space: number, board?: BoardNumbering): boolean =>
  Number.isInteger(space) && space >= 1 && space <= mostSpaces(board);

const PATTERN: Readonly<Record<PanelKind, readonly Role[]>> = {
  'three-phase': ['phase A', 'phase B', 'phase C'],
  'single-phase': ['line 1', 'line 2'],
  // NEC 408.3(E)(1) (2020, read in the California code): the phase with the higher voltage to ground is B.
  'high leg on B': ['phase A', 'high leg', 'phase C'],
  // Canadian rule 4-036(4): it is A.
  'high leg on A': ['high leg', 'phase B', 'phase C'],
};

/**
 * Row of a pole space, from 1 at the end of the board where space 1 is: the top, or the bottom of a board mounted upside
 * down. Usually spaces are numbered left to right, row by row: odd left, even right (panel-phase-pattern us-3ph, read).
 * Nothing in the NEC fixes that; column-type boards count straight down (not-universal in the same file, from memory).
 * Throws RangeError unless `space` is a whole number from 1.
 */
export function poleRow(space: number, board?: BoardNumbering): number {
  if (!Number.isInteger(space) || space < 1) throw new RangeError(`pole space ${space}`);
  if (board?.order !== 'down') return Math.ceil(space / 2);
  return board.rows === undefined ? space : ((space - 1) % board.rows) + 1;
}

/** Side of the board, seen from the front. Throws RangeError as `poleRow` does. */
export function poleSide(space: number, board?: BoardNumbering): 'left' | 'right' {
  const row = poleRow(space, board);
  if (board?.order === 'down') return space > row ? 'right' : 'left';
  return (space % 2 === 1) === (board?.order !== 'upside down') ? 'left' : 'right';
}

/**
 * Phase or line behind a pole space: rows repeat A, B, C, or the two lines; on a board whose right side is reversed they
 * repeat C, B, A there (some switchboards; panel-phase-pattern not-universal, read). A board mounted upside down keeps
 * the phases of its stamped numbers (bottom-fed in the same file). Without `board`: the usual numbering; the stamp
 * decides. Both circuits of a tandem breaker have the phase of its space. Throws RangeError as `poleRow` does.
 */
export function panelPole(space: number, kind: PanelKind, board?: BoardNumbering): Role {
  const buses = PATTERN[kind];
  const at = (poleRow(space, board) - 1) % buses.length;
  const reversed = board?.order === 'right side reversed' && poleSide(space, board) === 'right';
  return buses[reversed ? buses.length - 1 - at : at]!;
}

/**
 * Spaces of a breaker: n, n + 2, n + 4 on the same side, or n, n + 1, n + 2 where numbers run straight down. Throws
 * RangeError unless poles is 1, 2 or 3.
 */
export function breakerSpaces(space: number, poles: number, board?: BoardNumbering): number[] {
  poleRow(space, board);
  if (!Number.isInteger(poles) || poles < 1 || poles > 3) throw new RangeError(`${poles} poles`);
  const step = board?.order === 'down' ? 1 : 2;
  return Array.from({ length: poles }, (_, k) => space + step * k);
}

/**
 * May these spaces share one neutral? Only if all lie on different phases; in the usual numbering an odd space and the
 * even one beside it do not. A multiwire circuit also needs one common disconnect (NEC 210.4(B)).
 */
export function mayShareNeutral(spaces: readonly number[], kind: PanelKind, board?: BoardNumbering): boolean {
  return new Set(spaces.map((space) => panelPole(space, kind, board))).size === spaces.length;
}

/**
 * The panel that a system is fed from, or null where the pattern does not apply: DC, isolated and auxiliary
 * conductors, and boards outside North America (UK boards number ways of three poles).
 */
export function panelKindOf(system: SystemId): PanelKind | null {
  const found = SYSTEMS[system];
  if (!found || (found.jurisdiction !== 'US' && found.jurisdiction !== 'CA')) return null;
  if (found.kind === 'split phase') return 'single-phase';
  if (found.kind === 'high-leg delta') return found.roles[0] === 'high leg' ? 'high leg on A' : 'high leg on B';
  return found.kind === 'wye' || found.kind === 'delta' || found.kind === 'corner-grounded delta'
    ? 'three-phase'
    : null;
}
