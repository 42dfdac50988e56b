import { parseArgs } from 'node:util';
import { Problem, SCHEDULE_FIELDS, type ScheduleField } from '../flow';

export interface TurnoverArguments {
  readonly schedule: string | null;
  readonly photos: string;
  readonly out: string;
  readonly title: string;
  readonly by: string;
  readonly jobs: number;
  /** This run's share of the photos, from 1: for array jobs. */
  readonly part: number;
  readonly parts: number;
  /** Photos follow the lines of the schedule one by one. */
  readonly inOrder: boolean;
  /** Conductors of a photo land in the order of the schedule, where there are as many of both. */
  readonly pair: boolean;
  /** Headings of columns, where the usual ones are not used. */
  readonly columns: Readonly<Partial<Record<ScheduleField, string>>>;
  readonly report: boolean;
  readonly help: boolean;
}

const bad = (detail: string, values: Readonly<Record<string, string>> = {}): Problem =>
  new Problem('bad argument', { detail, ...values });

function wholeOf(option: string, text: string, most: number): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1 || value > most) throw bad('command.bad.whole', { option, text });
  return value;
}

function columnsOf(texts: readonly string[]): TurnoverArguments['columns'] {
  return Object.fromEntries(
    texts.map((text) => {
      const [field = '', ...heading] = text.split('=');
      if (!(SCHEDULE_FIELDS as readonly string[]).includes(field) || heading.length === 0)
        throw bad('command.bad.column', { text, fields: SCHEDULE_FIELDS.join(', ') });
      return [field, heading.join('=')];
    }),
  );
}

/** Arguments of the turnover command. @throws Problem 'bad argument'. */
export function parseTurnoverArguments(argv: readonly string[], cores: number): TurnoverArguments {
  let values: ReturnType<typeof parse>;
  try {
    values = parse(argv);
  } catch (error) {
    throw bad('command.bad.words', { why: error instanceof Error ? error.message : String(error) });
  }
  const help = values.help ?? false;
  if (!help && values.photos === undefined) throw bad('command.bad.value', { option: '--photos' });
  if (!help && values.out === undefined) throw bad('command.bad.value', { option: '--out' });
  const [part = '', parts = ''] = (values.part ?? '1/1').split('/');
  const count = wholeOf('--part', parts, 10_000);
  return {
    schedule: values.schedule ?? null,
    photos: values.photos ?? '',
    out: values.out ?? '',
    title: values.title ?? '',
    by: values.by ?? '',
    jobs: wholeOf('--jobs', values.jobs ?? String(Math.max(1, cores - 1)), 256),
    part: wholeOf('--part', part, count),
    parts: count,
    inOrder: values['in-order'] ?? false,
    pair: values['pair-in-order'] ?? false,
    columns: columnsOf(values.column ?? []),
    report: !(values['no-report'] ?? false),
    help,
  };
}

const parse = (argv: readonly string[]) =>
  parseArgs({
    args: [...argv],
    options: {
      schedule: { type: 'string' },
      photos: { type: 'string' },
      out: { type: 'string' },
      title: { type: 'string' },
      by: { type: 'string' },
      jobs: { type: 'string' },
      part: { type: 'string' },
      'in-order': { type: 'boolean' },
      'pair-in-order': { type: 'boolean' },
      column: { type: 'string', multiple: true },
      'no-report': { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
    },
  }).values;
