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

/**
 * The phase map after the readings, how far each conductor is proved, and why readings contradict. Pure and
 * complete: all readings ever taken go in, and editing the map, a trace (`options.edited`) or a reading
 * (`supersedes`) takes back whatever rested on it. `changes` says what the last reading in the list did.
 */
export function judge(map: PhaseMap, readings: readonly Reading[], options: MeterOptions = {}): Verdict {
  const after = assess(map, readings, options);
  const before = assess(map, readings.slice(0, -1), options);
  return {
    conductors: after.conductors,
    map: after.map,
    explanations: explain(after, options),
    changes: readings.length === 0 ? [] : changesBetween(before, after),
  };
}
