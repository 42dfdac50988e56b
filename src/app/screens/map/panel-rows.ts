import type { Assignment, Role } from '../../../flow';
import { type PanelKind, panelPole, poleRow } from '../../../identify';

interface PanelSide {
  readonly space: number;
  readonly conductors: readonly string[];
}

export interface PanelRow {
  /** From 1, at the top. */
  readonly row: number;
  readonly pole: Role;
  readonly left: PanelSide;
  readonly right: PanelSide;
}

/** Rows of a panel from the top down to the last space in use; none when no conductor's space is known. */
export function panelRows(assignments: readonly Assignment[], kind: PanelKind): PanelRow[] {
  const spaces = new Map<number, string[]>();
  for (const { conductor, space } of assignments) {
    if (space !== undefined) spaces.set(space, [...(spaces.get(space) ?? []), conductor]);
  }
  if (spaces.size === 0) return [];
  const last = poleRow(Math.max(...spaces.keys()));
  const side = (space: number): PanelSide => ({ space, conductors: spaces.get(space) ?? [] });
  return Array.from({ length: last }, (_, i) => ({
    row: i + 1,
    pole: panelPole(2 * i + 1, kind),
    left: side(2 * i + 1),
    right: side(2 * i + 2),
  }));
}
