import { type Message, message, type PhaseMap, type Reading, type Verdict } from '../flow';
import { type Assessment, assess } from './assess';
import { explain } from './explain';
import type { MeterOptions } from './options';

const percent = (p: number): number => Math.round(p * 100);

/** What the last reading changed: standings and claimed roles, and readings that do not count. */
function changesBetween(before: Assessment, after: Assessment): Message[] {
  const changes: Message[] = [];
  for (const verdict of after.conductors) {
    const { conductor, standing } = verdict;
    const was = before.conductors.find((c) => c.conductor === conductor)?.standing ?? 'by color';
    const [old, now] = [before.belief.claims.get(conductor), after.belief.claims.get(conductor)];
    if (old && now && (old.role !== now.role || old.system !== now.system))
      changes.push(
        message('verify.change.role', {
          conductor,
          from: old.role,
          to: now.role,
          system: `identify.system.${now.system}`,
          percent: percent(now.probability),
        }),
      );
    if (was !== standing)
      changes.push(
        message(`verify.change.${standing.replaceAll(' ', '-')}`, { conductor, role: now?.role ?? 'unassigned', was }),
      );
  }
  const known = new Set(before.sorted.aside.map((a) => a.reading.id));
  for (const { reading, why } of after.sorted.aside)
    if (!known.has(reading.id))
      changes.push(message(`verify.aside.${why.replaceAll(' ', '-')}`, { value: String(reading.value) }));
  return changes;
}

/** The readings as they were before the last thing that was done to them: one was added, or one was taken back. */
function readingsBefore(readings: readonly Reading[]): readonly Reading[] {
  const added = readings.at(-1);
  const back = readings
    .filter((r) => r.takenBack)
    .reduce<Reading | null>(
      (a, r) => (a && Date.parse(a.takenBack?.at ?? '') >= Date.parse(r.takenBack?.at ?? '') ? a : r),
      null,
    );
  if (!added || !back?.takenBack || Date.parse(back.takenBack.at) < Date.parse(added.at)) return readings.slice(0, -1);
  const { takenBack: _, ...before } = back;
  return readings.map((r) => (r === back ? before : r));
}

/**
 * The phase map after the readings, how far each conductor is proved, and why readings contradict. Pure and
 * complete: all readings ever taken go in, and editing the map, a trace (`options.edited`) or a reading
 * (`supersedes`) takes back whatever rested on it. `changes` says what was last done: the newest reading, or
 * the taking back of one.
 */
export function judge(map: PhaseMap, readings: readonly Reading[], options: MeterOptions = {}): Verdict {
  const after = assess(map, readings, options);
  const before = assess(map, readingsBefore(readings), options);
  return {
    conductors: after.conductors,
    map: after.map,
    explanations: explain(after, options),
    changes: readings.length === 0 ? [] : changesBetween(before, after),
  };
}
