import { describe, expect, it } from 'vitest';
import { conductorTable } from '../../src/record';
import { csvCell, csvText } from '../../src/record/csv';
import { sampleJob } from './sample-job';

/** A reader of RFC 4180 written for this test alone. */
function parseCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i] as string;
    if (quoted) {
      if (c !== '"') cell += c;
      else if (text[i + 1] === '"') {
        cell += '"';
        i += 1;
      } else quoted = false;
    } else if (c === '"') quoted = true;
    else if (c === ',') {
      rows.at(-1)?.push(cell);
      cell = '';
    } else if (c === '\r' && text[i + 1] === '\n') {
      rows.at(-1)?.push(cell);
      cell = '';
      rows.push([]);
      i += 1;
    } else cell += c;
  }
  return rows.slice(0, -1);
}

describe('CSV', () => {
  it('writes the quoting rules of RFC 4180 section 2', () => {
    expect(csvText([['aaa', 'b\r\nbb', 'c,cc', 'd"dd', 4.5]])).toBe('aaa,"b\r\nbb","c,cc","d""dd",4.5\r\n');
  });

  it.each(['=1+1', '+1', '-1', '@x', '\t=1'])('keeps %s from running as a formula', (text) => {
    expect(csvCell(text).startsWith("'")).toBe(true);
    expect(csvCell(-1)).toBe('-1');
  });

  it('comes back cell by cell, and color and meter stay apart', async () => {
    const job = await sampleJob();
    const rows = parseCsv(
      conductorTable(
        job,
        new Map([['p1', [{ conductor: 'c1', standing: 'disputed', missing: [], agree: [], contradict: ['r1'] }]]]),
      ),
    );
    const [head, first, second] = rows as [string[], string[], string[]];
    expect(new Set(rows.map((r) => r.length))).toEqual(new Set([head.length]));
    const cell = (row: string[], column: string): string | undefined => row[head.indexOf(column)];
    expect(cell(first, 'photo')).toBe('\'=photo "1", north.jpg');
    expect(cell(first, 'colors that cannot be ruled out')).toBe('orange / brown');
    expect(cell(first, 'IEC 60757')).toBe('OG');
    expect(cell(first, 'standing')).toBe('disputed');
    expect(cell(first, 'readings')).toContain('277.1');
    expect(cell(second, 'standing')).toBe('');
    expect(cell(second, 'most probable color')).toBe('');
    expect(cell(second, 'covering')).toBe('bare');
  });
});
