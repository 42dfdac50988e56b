import {
  type BoardNumbering,
  message,
  SCHEDULE_FIELDS,
  type ScheduleField,
  type ScheduleLine,
  type Termination,
} from '../../flow';
import type { ColumnMap } from './columns';
import { perBoard } from './per-board';
import { type CellFault, readLine } from './read-line';
import type { SheetTable } from './read-table';

/** A schedule as lines of a job, and what was not clear in them, row by row. */
export interface ScheduleReading {
  readonly lines: readonly ScheduleLine[];
  readonly faults: readonly RowFault[];
}

export interface RowFault extends CellFault {
  readonly line: string;
  readonly row: number | null;
}

/**
 * Lines of a table by a mapping of its columns. Every cell is kept: those of mapped columns under their field, the
 * rest under their heading, cells beyond the heading under the number of their column. `prefix` begins the lines'
 * ids and must not have been used in the job. `board`: as in `readLine`.
 */
export function readSchedule(
  table: SheetTable,
  columns: ColumnMap,
  prefix: string,
  board?: BoardNumbering,
): ScheduleReading {
  const fieldAt = new Map(SCHEDULE_FIELDS.flatMap((f) => (columns[f] === undefined ? [] : [[columns[f], f] as const])));
  const lines = table.rows.map(({ row, cells }): ScheduleLine => {
    const mapped: Partial<Record<ScheduleField, string>> = {};
    const other: [string, string][] = [];
    for (const [k, text] of cells.entries()) {
      const field = fieldAt.get(k);
      if (field) mapped[field] = text;
      else if (text !== '') other.push([table.heading[k] || String(k + 1), text]);
    }
    return { id: `${prefix}${row}`, row, cells: mapped, other: distinct(other) };
  });
  return { lines, faults: faultsOf(lines, board) };
}

/** Headings may repeat: the second "Notes" becomes "Notes (2)", so that no cell hides another. */
function distinct(cells: readonly (readonly [string, string])[]): Readonly<Record<string, string>> {
  const out = new Map<string, string>();
  for (const [heading, text] of cells) {
    let name = heading;
    for (let n = 2; out.has(name); n++) name = `${heading} (${n})`;
    out.set(name, text);
  }
  // Object.fromEntries defines own properties, so that even a heading "__proto__" stays a plain cell.
  return Object.fromEntries(out);
}

/**
 * What was not clear in a schedule: cells, and places that two lines claim. `board`: as in `readLine`. Lists of lines never
 * change, so that each is looked through once.
 */
export const faultsOf = perBoard<readonly ScheduleLine[], readonly RowFault[]>(findFaults);

function findFaults(lines: readonly ScheduleLine[], board: BoardNumbering | undefined): RowFault[] {
  const faults: RowFault[] = [];
  const claimed = new Map<string, ScheduleLine>();
  for (const line of lines) {
    const reading = readLine(line, board);
    for (const fault of reading.faults) faults.push({ line: line.id, row: line.row, ...fault });
    for (const t of reading.terminations) {
      if (t.space === null) continue;
      const place = JSON.stringify([t.panel, t.space, half(line)]);
      const before = claimed.get(place);
      if (before && before.id !== line.id) {
        const values = { panel: t.panel, space: t.space, row: before.row ?? 0 };
        const twice = message('record.schedule.space-twice', values);
        faults.push({ line: line.id, row: line.row, field: 'space', message: twice });
        break;
      }
      claimed.set(place, line);
    }
  }
  return faults;
}

/** The letter of a tandem breaker's half: "12A" and "12B" share a space by right. */
const half = (line: ScheduleLine): string => /\d([a-z])\s*$/i.exec(line.cells.space ?? '')?.[1]?.toUpperCase() ?? '';

/**
 * The lines with one cell entered anew. All other cells stay, and the line keeps its id, and with it what was said of its
 * terminations.
 */
export const withCell = (
  lines: readonly ScheduleLine[],
  id: string,
  field: ScheduleField,
  text: string,
): readonly ScheduleLine[] =>
  lines.map((line) => (line.id === id ? { ...line, cells: { ...line.cells, [field]: text } } : line));

/** All terminations of a schedule, in its order. `board`: as in `readLine`. */
export const terminationsOf = (lines: readonly ScheduleLine[], board?: BoardNumbering): Termination[] =>
  lines.flatMap((line) => readLine(line, board).terminations);
