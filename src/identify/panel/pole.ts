import type { Role, SystemId } from '../../flow';
import { SYSTEMS } from '../data/systems';

/** How the buses of a panelboard lie behind its pole spaces. */
export type PanelKind = 'three-phase' | 'single-phase' | 'high leg on B' | 'high leg on A';

/** Highest pole space of a board that is taken as meant (NEC 408.36 long capped boards at 42; larger ones exist). */
export const MOST_SPACES = 84;

/** Is this the number of a pole space? Whatever else a record or a form holds says nothing of a board. */
export const isPoleSpace = (space: number): boolean => Number.isInteger(space) && space >= 1 && space <= MOST_SPACES;

const PATTERN: Readonly<Record<PanelKind, readonly Role[]>> = {
  'three-phase': ['phase A', 'phase B', 'phase C'],
  'single-phase': ['line 1', 'line 2'],
  // NEC 408.3(E)(1) (2020, read in the California code): the phase with the higher voltage to ground is B.
  'high leg on B': ['phase A', 'high leg', 'phase C'],
  // Canadian rule 4-036(4): it is A.
  'high leg on A': ['high leg', 'phase B', 'phase C'],
};

/**
 * Row of a pole space, from 1. Spaces are numbered left to right, row by row, from the top: odd left, even right
 * (panel-phase-pattern us-3ph, read). Throws RangeError unless `space` is a whole number from 1.
 */
export function poleRow(space: number): number {
  if (!Number.isInteger(space) || space < 1) throw new RangeError(`pole space ${space}`);
  return Math.ceil(space / 2);
}

/**
 * Phase or line behind a pole space: row = ceil(n / 2); rows repeat A, B, C, or the two lines. Valid for boards
 * numbered in this way only: nothing in the NEC fixes the numbering, so the stamp on the board decides. Both
 * circuits of a tandem breaker have the phase of its space. Throws RangeError unless `space` is a whole number
 * from 1.
 */
export function panelPole(space: number, kind: PanelKind): Role {
  const rows = PATTERN[kind];
  return rows[(poleRow(space) - 1) % rows.length]!;
}

/** Spaces of a breaker: n, n + 2, n + 4 on the same side. Throws RangeError unless poles is 1, 2 or 3. */
export function breakerSpaces(space: number, poles: number): number[] {
  poleRow(space);
  if (!Number.isInteger(poles) || poles < 1 || poles > 3) throw new RangeError(`${poles} poles`);
  return Array.from({ length: poles }, (_, k) => space + 2 * k);
}

/**
 * May these spaces share one neutral? Only if all lie on different phases; an odd space and the even one beside it
 * do not. A multiwire circuit also needs one common disconnect (NEC 210.4(B)).
 */
export function mayShareNeutral(spaces: readonly number[], kind: PanelKind): boolean {
  return new Set(spaces.map((space) => panelPole(space, kind))).size === spaces.length;
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
