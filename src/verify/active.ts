import type { PhaseMap, Reading } from '../flow';
import type { MeterOptions } from './options';
import { question } from './question';
import { conductorsOf } from './test-point';

/** Why a reading is kept but not counted. */
export type NotCounted = 'superseded' | 'taken back' | 'questioned' | 'taken before an edit' | 'unsigned';

export interface SortedReadings {
  readonly counted: readonly Reading[];
  readonly aside: readonly { readonly reading: Reading; readonly why: NotCounted }[];
}

function reasonAside(
  reading: Reading,
  replaced: ReadonlySet<string>,
  map: PhaseMap,
  options: MeterOptions,
): NotCounted | null {
  if (replaced.has(reading.id)) return 'superseded';
  if (reading.takenBack) return 'taken back';
  const taken = Date.parse(reading.at);
  if (reading.by.trim() === '' || Number.isNaN(taken)) return 'unsigned';
  const edits = conductorsOf(reading).flatMap((id) => options.edited?.[id] ?? []);
  if (edits.some((edit) => !(taken > Date.parse(edit)))) return 'taken before an edit';
  return reading.confirmed !== true && question(reading, map, options) ? 'questioned' : null;
}

/**
 * Which readings count as evidence. Set aside, never dropped: readings another one replaces or that were taken back, questioned values
 * that nobody confirmed, readings older than the last edit of a conductor they touch, readings without name or time.
 */
export function sortReadings(map: PhaseMap, readings: readonly Reading[], options: MeterOptions): SortedReadings {
  const replaced = new Set(readings.flatMap((r) => r.supersedes ?? []));
  const counted: Reading[] = [];
  const aside: { reading: Reading; why: NotCounted }[] = [];
  for (const reading of readings) {
    const why = reasonAside(reading, replaced, map, options);
    if (why) aside.push({ reading, why });
    else counted.push(reading);
  }
  return { counted, aside };
}
