import type { ProblemKind } from '../../../../src/flow';
import { readSchedule, readTable, readTag, suggestColumns, tagText, terminationsOf } from '../../../../src/record';
import { csvText } from '../../../../src/record/csv';
import { between, pick } from '../../random';
import { jsonOf, must, outcome, type Target } from '../target';

const REFUSALS: readonly ProblemKind[] = ['schedule unreadable', 'schedule too large'];
const HEADINGS = ['Panel', 'Space', 'Circuit', 'Phase', 'Color', 'Load', 'Torque', 'Notes', '', '__proto__', 'Panel'];
const CELLS = [
  'LP1',
  '1',
  '1,3,5',
  '2-4-6',
  '12A',
  '99999999999999999999',
  '1-1000000000',
  'A',
  'ABC',
  'BK',
  'black/white',
  'green-yellow',
  '480Y/277',
  '14 in-lb',
  '1e308 Nm',
  '-5',
  '=cmd()',
  '"',
  'two\nlines',
  '',
  '\u202e',
  'x'.repeat(3000),
];

const sheet = (random: () => number): readonly (readonly string[])[] =>
  Array.from({ length: between(random, 1, 8) }, (_, k) =>
    Array.from({ length: between(random, 0, 9) }, () => pick(random, k === 0 ? HEADINGS : CELLS)),
  );

/** Any sheet: refused with a reason, or every cell of it is kept. */
export const schedule: Target = {
  name: 'schedule',
  share: 6,
  make(random) {
    const text = csvText(sheet(random));
    if (random() < 0.6) return text;
    const at = between(random, 0, text.length);
    return text.slice(0, at) + pick(random, ['"', ',', '\t', '\r', ';', '\u0000', '\ufeff']) + text.slice(at);
  },
  async check(input) {
    const text = String(jsonOf(input));
    const result = await outcome(() => readTable(text), REFUSALS);
    if ('problem' in result) return;
    const table = result.value;
    const { lines } = readSchedule(table, suggestColumns(table.heading), 's1-');
    must(lines.length === table.rows.length, 'a line was lost');
    for (const [k, { cells }] of table.rows.entries()) {
      const kept = [...Object.values(lines[k]!.cells), ...Object.values(lines[k]!.other)];
      for (const cell of cells) must(cell === '' || kept.includes(cell), `a cell was lost: ${cell.slice(0, 20)}`);
    }
    for (const { space } of terminationsOf(lines))
      must(space === null || Number.isSafeInteger(space), `space ${space}`);
  },
};

/** A tag says the place it was printed for; any other text is no tag. */
export const tag: Target = {
  name: 'printed tag',
  share: 2,
  make: (random) => ({
    panel: pick(random, CELLS),
    space: between(random, 1, 999),
    termination: pick(random, CELLS),
    cut: random() < 0.5 ? 0 : between(random, 1, 9),
  }),
  check(input) {
    const { panel, space, termination, cut } = jsonOf(input) as {
      readonly panel: string;
      readonly space: number;
      readonly termination: string;
      readonly cut: number;
    };
    const text = tagText({ panel, space, termination });
    const read = readTag(text.slice(0, text.length - cut));
    if (cut > 0 || panel === '') return;
    must(read?.panel === panel && read.space === space && (read.termination ?? '') === termination, 'another place');
  },
};
