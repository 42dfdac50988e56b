import type { BoardNumbering, Termination, Turnover } from '../../flow';
import { readLine } from '../schedule';

/**
 * The first termination, in the order of the schedule, of which there is no photo; null when there is none. `board`: how
 * the site's boards are numbered, where not as usual.
 */
export function nextWithoutPhoto(turnover: Turnover, board?: BoardNumbering): Termination | null {
  const own = new Set(turnover.places.flatMap((p) => p.termination ?? []));
  const spaces = new Set(
    turnover.places.flatMap((p) =>
      p.termination === undefined && p.space !== undefined ? [JSON.stringify([p.panel, p.space])] : [],
    ),
  );
  const panels = new Set(
    turnover.places.flatMap((p) => (p.termination === undefined && p.space === undefined ? [p.panel] : [])),
  );
  for (const line of turnover.lines)
    for (const t of readLine(line, board).terminations)
      if (
        !own.has(t.id) &&
        !panels.has(t.panel) &&
        !spaces.has(JSON.stringify([t.panel, t.space])) &&
        !turnover.entries[t.id]?.sightings?.length
      )
        return t;
  return null;
}
