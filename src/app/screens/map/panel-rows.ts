import type { SiteKnowledge } from '../../../flow';
import type { PanelMap, PanelSpace } from '../../../identify';

export interface PanelRow {
  /** From 1, at the top. */
  readonly row: number;
  readonly left: PanelSpace;
  readonly right: PanelSpace | null;
}

/** Spaces of a board, two a row, from the top down to the last in use. */
export function panelRows(map: PanelMap): readonly PanelRow[] {
  const rows: PanelRow[] = [];
  for (let i = 0; i < map.spaces.length; i += 2) {
    const left = map.spaces[i]!;
    rows.push({ row: left.row, left, right: map.spaces[i + 1] ?? null });
  }
  return rows;
}

/** Spaces that one breaker spans, by side: two or more poles on the same side. */
export function breakerSpans(
  site: SiteKnowledge,
): readonly { readonly side: 'left' | 'right'; readonly spaces: readonly number[] }[] {
  return site.groups.flatMap((g) => {
    if (g.kind !== 'breaker') return [];
    const spaces = g.conductors.map((c) => site.spaces[c]).filter((n) => n !== undefined);
    return (['left', 'right'] as const).flatMap((side) => {
      const own = [...new Set(spaces.filter((n) => (n % 2 === 1) === (side === 'left')))].sort((a, b) => a - b);
      return own.length > 1 ? [{ side, spaces: own }] : [];
    });
  });
}
