import { type Deviation, type JobPhoto, type Message, message } from '../../flow';
import type { TurnoverView } from './turnover-view';

/** Deviations that lie in what a photo shows: one that was taken after the correction and shows them still closes nothing. */
const IN_THE_PHOTO = new Set(['differs', 'disputed']);

/**
 * Ids of the photos that show a deviation as it was found: those of its termination that were not taken after a
 * correction, the one that was compared, and the one a finding was made in. None for a fault of the schedule.
 */
export function shownBy(deviation: Deviation, view: Pick<TurnoverView, 'compared' | 'turnover'>): ReadonlySet<string> {
  const { termination, code, id } = deviation;
  if (termination === null) return new Set(code === 'finding' ? [id.slice(0, id.indexOf(':'))] : []);
  const here = view.turnover.places.filter((p) => p.termination === termination);
  const after = new Set(here.flatMap((p) => (p.after ? [p.photo] : [])));
  const sight = view.compared.find((c) => c.termination.id === termination)?.sight;
  const compared = sight && sight.kind !== 'no photo' ? [sight.photo.id] : [];
  const pointed = view.turnover.entries[termination]?.sightings ?? [];
  const all = [...here, ...pointed].map((p) => p.photo).concat(compared);
  return new Set([...all.filter((photo) => !after.has(photo)), ...(IN_THE_PHOTO.has(code) ? compared : [])]);
}

/** Both say when they were taken, and in the same way: with the offset from UTC, or both without. */
const comparable = (a: string, b: string): boolean => ZONE.test(a) === ZONE.test(b);
const ZONE = /(?:Z|[+-]\d\d:?\d\d)$/;

/**
 * Why a photo closes no deviation that these photos show, or null when it may: it must have been taken later than each
 * of them, and where the files do not say when, added to the job later.
 */
export function closingFault(photo: JobPhoto, shown: ReadonlySet<string>, all: readonly JobPhoto[]): Message | null {
  if (shown.has(photo.id)) return message('record.close.shows-it');
  const at = all.findIndex((p) => p.id === photo.id);
  for (const [k, before] of all.entries()) {
    if (!shown.has(before.id)) continue;
    const [earlier, taken] = [before.findings.photo.takenAt, photo.findings.photo.takenAt];
    const values = { photo: before.findings.photo.name };
    if (earlier !== undefined && taken !== undefined && comparable(earlier, taken)) {
      const later = Date.parse(taken) - Date.parse(earlier);
      if (later > 0) continue;
      // In a burst two photos may bear the same second.
      if (later < 0) return message('record.close.taken-before', values);
    }
    if (k > at) return message('record.close.added-before', values);
  }
  return null;
}
