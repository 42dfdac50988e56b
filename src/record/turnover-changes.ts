import { EMPTY_TURNOVER, type Job, type Message, message, type Turnover } from '../flow';
import { same } from './same';

const say = (code: string, values?: Message['values']): Message => message(`record.change.${code}`, values);

/** Any plain value as text of the log, so that what was taken back later is still there. */
const text = (value: unknown): string =>
  typeof value === 'object' && value !== null
    ? Object.entries(value)
        .map(([key, each]) => `${key} ${text(each)}`)
        .join(', ')
    : String(value ?? '-');

function* keyed<T extends object>(
  before: Readonly<Record<string, T>>,
  after: Readonly<Record<string, T>>,
): Generator<[key: string, field: string, value: unknown]> {
  for (const key of new Set([...Object.keys(before), ...Object.keys(after)])) {
    const [was, is] = [before[key] ?? {}, after[key] ?? {}] as Record<string, unknown>[];
    for (const field of new Set([...Object.keys(was ?? {}), ...Object.keys(is ?? {})]))
      if (!same(was?.[field], is?.[field])) yield [key, field, is?.[field]];
  }
}

function* lineChanges(before: Turnover, after: Turnover): Generator<Message> {
  if (same(before.lines, after.lines)) return;
  const old = new Map(before.lines.map((line) => [line.id, line]));
  const added = after.lines.filter((line) => !old.has(line.id)).length;
  if (added > 0) yield say('lines-added', { count: added });
  const kept = new Map(after.lines.map((line) => [line.id, line]));
  for (const line of before.lines) {
    const now = kept.get(line.id);
    if (!now) yield say('line-removed', { line: line.id, cells: text(line.cells) });
    else if (!same(line, now)) yield say('line-changed', { line: line.id, cells: text(now.cells) });
  }
}

/** True when a list holds a value. Looked for as the same object first: of hundreds, few are ever new. */
const holds = <T>(list: readonly T[], value: T): boolean =>
  list.includes(value) || list.some((each) => same(each, value));

/** What a save changed in the turnover, with the values entered. */
export function* turnoverChanges(beforeJob: Job, afterJob: Job): Generator<Message> {
  const [before, after] = [beforeJob.turnover ?? EMPTY_TURNOVER, afterJob.turnover ?? EMPTY_TURNOVER];
  yield* lineChanges(before, after);
  for (const place of after.places) if (!holds(before.places, place)) yield say('place-added', { place: text(place) });
  for (const place of before.places)
    if (!holds(after.places, place)) yield say('place-removed', { place: text(place) });
  for (const [termination, field, value] of keyed(before.entries, after.entries))
    yield say('entry', { termination, field, value: text(value) });
  for (const [deviation, field, value] of keyed(before.handled, after.handled))
    yield say('handled', { deviation, field, value: text(value) });
  for (const s of after.signatures)
    if (!holds(before.signatures, s))
      yield say('signed', { by: s.by, capacity: s.capacity, at: s.at, covers: s.covers });
}
