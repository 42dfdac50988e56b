import type { SiteKnowledge } from '../../../flow';
import { type PanelMap, type PanelSpace, poleSide } from '../../../identify';

export interface PanelRow {
  /** From 1, at the top. */
  readonly row: number;
  /** One of them at least is there. */
  readonly left: PanelSpace | null;
  readonly right: PanelSpace | null;
}

/** Spaces of a board as they lie, from the top down. */
export function panelRows(map: PanelMap): readonly PanelRow[] {
  const rows = new Map<number, PanelRow>();
  for (const space of map.spaces) {
    const row = rows.get(space.row) ?? { row: space.row, left: null, right: null };
    rows.set(space.row, { ...row, [space.side]: space });
  }
  return [...rows.values()].sort((a, b) => a.row - b.row);
}

/** Spaces that one breaker spans, by side: two or more poles on the same side. */
export function breakerSpans(
  site: SiteKnowledge,
): readonly { readonly side: 'left' | 'right'; readonly spaces: readonly number[] }[] {
  return site.groups.flatMap((g) => {
    if (g.kind !== 'breaker') return [];
    const spaces = g.conductors.map((c) => site.spaces[c]).filter((n) => n !== undefined);
    return (['left', 'right'] as const).flatMap((side) => {
      const own = [...new Set(spaces.filter((n) => poleSide(n, site.board) === side))].sort((a, b) => a - b);
      return own.length > 1 ? [{ side, spaces: own }] : [];
    });
  });
}
