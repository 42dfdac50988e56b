import * as v from 'valibot';
import { type Job, Problem } from '../flow';
import { JobSchema } from './schema';

/** The schema that this version writes. */
export const CURRENT_SCHEMA = 3;

type Step = (job: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>;

/**
 * Key n turns a job of schema n into one of schema n + 1. Schema 2 may hold a turnover, 1 had none; schema 3 may hold
 * conductors seen on several photos and comparisons that were kept.
 */
export const MIGRATIONS: Readonly<Record<number, Step>> = {
  1: (job) => ({ ...job, schema: 2 }),
  2: (job) => ({ ...job, schema: 3 }),
};

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The `import malformed` problem; `detail` is a key of the catalogue. */
export const malformed = (detail: string, path = ''): Problem =>
  new Problem('import malformed', { detail, place: path && ` (${path})` });

/** Checks a value against a schema and gives it back as it was. @throws Problem 'import malformed' with the place. */
export function expectShape<T>(schema: v.GenericSchema<unknown, unknown>, value: unknown): T {
  const result = v.safeParse(schema, value, { abortEarly: true });
  if (result.success) return value as T;
  const issue = result.issues[0];
  throw malformed('record.import.at', issue ? (v.getDotPath(issue) ?? '/') : '/');
}

/**
 * A job of any schema up to the current one, brought to the current one and checked.
 * @throws Problem 'import malformed' when it is newer than this program or not as expected.
 */
export function migrate(value: unknown, steps: Readonly<Record<number, Step>> = MIGRATIONS): Job {
  if (!isRecord(value)) throw malformed('record.import.other-format');
  let job = value;
  for (let schema = job.schema; schema !== CURRENT_SCHEMA; schema = job.schema) {
    if (typeof schema !== 'number') throw malformed('record.import.other-format');
    const step = steps[schema];
    if (!step) throw malformed(schema > CURRENT_SCHEMA ? 'record.import.newer' : 'record.import.other-format');
    job = step(job);
  }
  return expectShape<Job>(JobSchema, job);
}
