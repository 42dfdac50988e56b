import Papa from 'papaparse';
import { Problem } from '../../flow';

/** A table as text cells: the first row is the heading. Rows may be of any length. */
export interface SheetTable {
  readonly heading: readonly string[];
  readonly rows: readonly SheetRow[];
}

export interface SheetRow {
  /** Line of the table, the heading being 1; rows that are blank are counted. */
  readonly row: number;
  readonly cells: readonly string[];
}

/** More lines than a building's schedule has; every save of a job hashes all of them. */
export const MOST_LINES = 10_000;

/**
 * Text of a CSV file (RFC 4180; commas, semicolons or tabs) or a table pasted from a spreadsheet, as cells. Quoted
 * line breaks, a byte order mark and blank lines are taken as they come; no cell is changed.
 * @throws Problem 'schedule unreadable' (empty, not text, a quote never closed), 'schedule too large'.
 */
export function readTable(text: string): SheetTable {
  if (text.includes('\0')) throw unreadable('record.schedule.binary');
  const parsed = Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), { delimiter: delimiterOf(text) });
  const broken = parsed.errors.find((e) => e.type === 'Quotes');
  if (broken) throw unreadable('record.schedule.quote', { row: (broken.row ?? 0) + 1 });
  const rows = parsed.data
    .map((cells, k): SheetRow => ({ row: k + 1, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  const [heading, ...body] = rows;
  if (!heading || body.length === 0) throw unreadable('record.schedule.empty');
  if (body.length > MOST_LINES) throw new Problem('schedule too large', { rows: body.length, most: MOST_LINES });
  return { heading: heading.cells.map((cell) => cell.trim()), rows: body };
}

const unreadable = (detail: string, values: Readonly<Record<string, number>> = {}): Problem =>
  new Problem('schedule unreadable', { detail, ...values });

/** The separator that the first line has most of; a guess over the whole text is misled by commas inside cells. */
function delimiterOf(text: string): string {
  const first = /^[^\r\n]*/.exec(text.trimStart())?.[0] ?? '';
  const count = (sign: string): number => first.split(sign).length;
  return ['\t', ';', ','].reduce((best, sign) => (count(sign) > count(best) ? sign : best), ',');
}
