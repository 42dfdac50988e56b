/** Characters a spreadsheet takes for the start of a formula (OWASP, CSV injection; from memory). */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * One cell by RFC 4180: quoted where it holds a comma, quote or line break. Text that a spreadsheet would run as a
 * formula gets an apostrophe in front; numbers are written as they are.
 */
export function csvCell(value: string | number): string {
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const safe = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Rows with CRLF after each, the last included. */
export const csvText = (rows: readonly (readonly (string | number)[])[]): string =>
  rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
