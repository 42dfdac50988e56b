import { SCHEDULE_FIELDS } from '../../flow';
import type { ColumnMap } from '../../record';

const keyOf = (layout: string): string => `columns:${layout}`;

/** Columns the user mapped for sheets of this layout; null when there are none or storage is switched off. */
export function columnsOf(layout: string): ColumnMap | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(layout)) ?? 'null');
    if (typeof kept !== 'object' || kept === null) return null;
    const known = Object.entries(kept).filter(
      ([field, at]) => (SCHEDULE_FIELDS as readonly string[]).includes(field) && Number.isInteger(at) && at >= 0,
    );
    return Object.fromEntries(known);
  } catch {
    return null;
  }
}

/** Remembered for the next sheet of this layout, where the browser lets it be. */
export function rememberColumns(layout: string, columns: ColumnMap): void {
  try {
    localStorage.setItem(keyOf(layout), JSON.stringify(columns));
  } catch {
    // A private window: the mapping is suggested anew the next time.
  }
}
