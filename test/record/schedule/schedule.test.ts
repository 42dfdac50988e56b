import { describe, expect, it } from 'vitest';
import { type BoardNumbering, Problem } from '../../../src/flow';
import {
  faultsOf,
  MOST_LINES,
  newtonMeters,
  readLine,
  readSchedule,
  readTable,
  suggestColumns,
  terminationsOf,
  withCell,
} from '../../../src/record';
import { csvText } from '../../../src/record/csv';

const read = (text: string) => {
  const table = readTable(text);
  return readSchedule(table, suggestColumns(table.heading), 's1-');
};
const kindOf = (run: () => unknown): string => {
  try {
    run();
    return 'no problem';
  } catch (error) {
    return error instanceof Problem ? error.kind : String(error);
  }
};
const line = (cells: Record<string, string>) => readLine({ id: 'x', row: 2, cells, other: {} });

describe('a schedule as text', () => {
  it('reads the grammar of RFC 4180, section 2: quotes, doubled quotes, commas and line breaks inside cells', () => {
    const text = 'Panel,Space,Load\r\n"LP ""1""","1","lights, north\r\nand south"\r\nLP2,2,plain\r\n';
    expect(readTable(text)).toEqual({
      heading: ['Panel', 'Space', 'Load'],
      rows: [
        { row: 2, cells: ['LP "1"', '1', 'lights, north\r\nand south'] },
        { row: 3, cells: ['LP2', '2', 'plain'] },
      ],
    });
  });

  it('refuses a quote that never closes, bytes, and an empty sheet, each with its own sentence (twin)', () => {
    const details = ['a,b\r\n"open,1\r\n', 'a,b\0\r\n1,2', 'a,b\r\n\r\n'].map((text) => {
      try {
        readTable(text);
        return 'read';
      } catch (error) {
        return (error as Problem).what.values?.detail;
      }
    });
    expect(details).toEqual(['record.schedule.quote', 'record.schedule.binary', 'record.schedule.empty']);
  });

  it('takes a table pasted from a spreadsheet, and semicolons', () => {
    expect(readTable('Panel\tSpace\tLoad\nLP1\t3\tPump, east\n').rows[0]?.cells).toEqual(['LP1', '3', 'Pump, east']);
    expect(readTable('Panel;Space\nLP1;3\n').rows[0]?.cells).toEqual(['LP1', '3']);
  });

  it('keeps every cell: unmapped columns, repeated headings, rows longer than the heading', () => {
    const { lines } = read('Panel,Space,Notes,Notes,__proto__\nLP1,1,a,b,c,d\n');
    expect(lines[0]?.cells).toEqual({ panel: 'LP1', space: '1' });
    const other = Object.entries(lines[0]?.other ?? {}).map(([heading, text]) => `${heading}: ${text}`);
    expect(other.sort()).toEqual(['6: d', 'Notes (2): b', 'Notes: a', '__proto__: c']);
  });

  it('names what is not clear row by row and still keeps the line', () => {
    const { lines, faults } = read(
      'Panel,Space,Color,Torque\nLP1,1,BK,35\nLP1,two,BK,35 in-lb\n,3,mauve,\nLP1,1,RD,\n',
    );
    expect(lines).toHaveLength(4);
    expect(faults.map((f) => [f.row, f.message.code])).toEqual([
      [2, 'record.schedule.unclear-torque'],
      [3, 'record.schedule.unclear-space'],
      [4, 'record.schedule.no-panel'],
      [5, 'record.schedule.space-twice'],
    ]);
    expect(lines[1]?.cells.space).toBe('two');
  });

  it('lets the halves of a tandem breaker share a space, but nothing else (twin)', () => {
    const { lines } = read('Panel,Space,Color\nLP1,12A,BK\nLP1,12B,BK\n');
    expect(faultsOf(lines)).toEqual([]);
    expect(faultsOf(lines.map((l) => ({ ...l, cells: { ...l.cells, space: '12A' } })))).toHaveLength(1);
  });

  it('refuses more lines than a job takes, and reads 100,000 rows up to that answer in a blink', () => {
    const rows = Array.from({ length: 100_000 }, (_, k) => [`P${k >> 6}`, String((k & 63) + 1), 'BK', '=1+1']);
    const text = csvText([['Panel', 'Space', 'Color', 'Load'], ...rows]);
    const start = performance.now();
    expect(kindOf(() => readTable(text))).toBe('schedule too large');
    expect(performance.now() - start).toBeLessThan(5000);
    expect(MOST_LINES).toBeLessThan(100_000);
  });
});

describe('a line of a schedule', () => {
  it('puts poles, phases and colors where they belong (spaces of a three-pole breaker: n, n + 2, n + 4)', () => {
    const { terminations, faults } = line({
      panel: 'LP1',
      space: '7',
      poles: '3',
      system: '208Y/120',
      color: 'BK/RD/BU',
      neutral: 'WH',
      ground: 'GN',
      torque: '35 in-lb',
    });
    expect(faults).toEqual([]);
    // NEMA numbering: rows 4, 5, 6 of a three-phase board are A, B, C (panel-phase-pattern us-3ph, read).
    expect(terminations.map((t) => [t.id, t.space, t.role, t.color])).toEqual([
      ['x:1', 7, 'phase A', 'black'],
      ['x:2', 9, 'phase B', 'red'],
      ['x:3', 11, 'phase C', 'blue'],
      ['x:neutral', null, 'grounded conductor', 'white'],
      ['x:ground', null, 'equipment grounding conductor', 'green'],
    ]);
    expect(terminations[0]?.torque).toEqual({ value: 35, unit: 'lbf·in' });
  });

  it('puts the poles of a breaker below each other where the board is numbered straight down', () => {
    const cells = { panel: 'LP1', space: '7', poles: '3', system: '208Y/120' };
    const read = (more: object, board?: BoardNumbering) =>
      readLine({ id: 'x', row: 1, cells: { ...cells, ...more }, other: {} }, board).terminations.map(
        (t) => `${t.space} ${t.role}`,
      );
    // Row 7 of one column is the seventh of A, B, C, A, B, C, A.
    expect(read({}, { order: 'down' })).toEqual(['7 phase A', '8 phase B', '9 phase C']);
    expect(read({ space: '7-9', poles: '' }, { order: 'down' })).toEqual(['7 phase A', '8 phase B', '9 phase C']);
    // Twin: as usual 7-9 are the two poles of one side.
    expect(read({ space: '7-9', poles: '' })).toEqual(['7 phase A', '9 phase B']);
    expect(read({ space: '9', poles: '' }, { order: 'down', rows: 4 })).toEqual(['9 null']);
  });

  it('tells a stripe from a list: WH/BU on one pole, BK/RD on two, GN/YE always', () => {
    const colors = (color: string, poles: string) =>
      line({ panel: 'P', space: '1', poles, color }).terminations.map((t) => `${t.color} ${t.stripe}`);
    expect(colors('WH/BU', '1')).toEqual(['white blue']);
    expect(colors('BK/RD', '2')).toEqual(['black null', 'red null']);
    expect(colors('GN/YE', '1')).toEqual(['green-yellow null']);
    expect(colors('white with blue stripe', '1')).toEqual(['white blue']);
  });

  it('guesses nothing: an unclear color stays unknown and is named (twin)', () => {
    for (const [color, poles] of [
      ['BK/RD/BU', '1'],
      ['BK/RD/BU', '2'],
      ['mauve', '1'],
      ['BK/BK', '1'],
    ] as const) {
      const { terminations, faults } = line({ panel: 'P', space: '1', poles, color });
      expect(
        terminations.map((t) => t.color).every((c) => c === null),
        color,
      ).toBe(true);
      expect(
        faults.map((f) => f.message.code),
        color,
      ).toEqual(['record.schedule.unclear-color']);
    }
  });

  it('takes spaces as 1,3,5, as 1-5 and as 1 with three poles; not as 1-4 (twin)', () => {
    const spaces = (space: string, poles = '') => line({ panel: 'P', space, poles }).terminations.map((t) => t.space);
    expect(spaces('1,3,5')).toEqual([1, 3, 5]);
    expect(spaces('1-5')).toEqual([1, 3, 5]);
    expect(spaces('1', '3')).toEqual([1, 3, 5]);
    expect(spaces('12A')).toEqual([12]);
    for (const bad of ['1-4', '0', '1,1', 'x', '1;2;3;4', '999']) expect(spaces(bad), bad).toEqual([]);
    expect(spaces('1,3', '3')).toEqual([]);
  });

  it('knows the usual ways to write a supply, and no other (twin)', () => {
    const system = (text: string) => line({ panel: 'P', space: '1', system: text }).terminations[0]?.system;
    for (const text of ['208Y/120', '120/208V, 3PH, 4W', 'us-208y120', '208Y/120 V'])
      expect(system(text), text).toBe('us-208y120');
    expect(system('480Y/277V')).toBe('us-480y277');
    expect(system('120/240')).toBe('us-120-240-1ph');
    for (const text of ['240', '999Y/577', '??']) expect(system(text), text).toBeNull();
  });

  it('converts torque by NIST SP 811: 1 lbf·in is 0.1129848 N·m, 1 lbf·ft is 1.355818 N·m', () => {
    expect(newtonMeters({ value: 35, unit: 'lbf·in' })).toBeCloseTo(3.95447, 4);
    expect(newtonMeters({ value: 12, unit: 'lbf·in' })).toBeCloseTo(newtonMeters({ value: 1, unit: 'lbf·ft' }), 5);
    for (const text of ['35', 'in-lb', '-3 N·m', '3 bar'])
      expect(line({ panel: 'P', space: '1', torque: text }).faults, text).toHaveLength(1);
  });

  it('gives a schedule the same terminations each time it is read', () => {
    const { lines } = read('Panel,Space,Poles,Color,Ground\nLP1,1,2,BK/RD,yes\nLP1,2,1,BK,no\n');
    expect(terminationsOf(lines).map((t) => t.id)).toEqual(['s1-2:1', 's1-2:2', 's1-2:ground', 's1-3:1']);
  });

  it('one cell entered anew: that fault is gone, everything else of all lines is as it was', () => {
    const { lines, faults } = read('Panel,Space,Color,Load,Notes\nLP1,four,plaid,Pump,by the door\nLP1,2,BK,Fan,\n');
    expect(faults.map((f) => f.field)).toEqual(['space']);
    const spaced = withCell(lines, 's1-2', 'space', '4');
    // Only a line whose spaces are clear has its other cells read.
    expect(faultsOf(spaced).map((f) => f.field)).toEqual(['color']);
    const clear = withCell(spaced, 's1-2', 'color', 'RD');
    expect(faultsOf(clear)).toEqual([]);
    expect(terminationsOf(clear).map((t) => [t.id, t.space, t.color])).toEqual([
      ['s1-2:1', 4, 'red'],
      ['s1-3:1', 2, 'black'],
    ]);
    expect(clear).toEqual([{ ...lines[0], cells: { ...lines[0]?.cells, space: '4', color: 'RD' } }, lines[1]]);
    expect(clear[0]?.other).toEqual({ Notes: 'by the door' });
    // Twin: a place that another line has is a fault of the same cell.
    expect(faultsOf(withCell(clear, 's1-2', 'space', '2')).map((f) => [f.line, f.field])).toEqual([['s1-3', 'space']]);
  });
});
