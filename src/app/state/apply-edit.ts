import type { ColorComparison, Job, JobPhoto, Reading } from '../../flow';
import { SAFETY_STEPS } from '../../verify';
import { replaceConductors } from './conductors';
import type { Edit } from './edit';
import { sayItIsTheSame, stillTheSame } from './same-conductors';

/**
 * The job after an edit made at a time (ISO 8601); the same object when nothing changed. Phase maps follow by `mapped`.
 */
export function applyEdit(job: Job, edit: Edit, at: string): Job {
  switch (edit.type) {
    case 'title':
      return edit.title === job.title ? job : { ...job, title: edit.title };
    case 'by':
      return edit.by === job.by ? job : { ...job, by: edit.by };
    case 'site':
      return { ...job, site: edit.site };
    case 'meter':
      return { ...job, meter: edit.meter };
    case 'turnover':
      return { ...job, turnover: edit.turnover };
    case 'place':
      // Measuring with the supply on means that it is on: what was confirmed about its being off is over.
      return job.place?.way === 'supply off' && edit.place.way === 'supply on'
        ? { ...withoutLifting(job), place: edit.place }
        : { ...job, place: edit.place };
    case 'acknowledge':
      return {
        ...job,
        acknowledgements: [
          ...job.acknowledgements.filter((a) => a.step !== edit.acknowledgement.step),
          edit.acknowledgement,
        ],
      };
    case 'withdraw':
      return { ...job, acknowledgements: job.acknowledgements.filter((a) => a.step !== edit.step) };
    case 'supply back':
      return withoutLifting(job);
    case 'add photo':
      return { ...job, photos: [...job.photos, edit.photo], ...(edit.turnover && { turnover: edit.turnover }) };
    case 'remove photo':
      return stillTheSame({ ...job, photos: job.photos.filter((p) => p.id !== edit.photo) });
    case 'same conductor':
      return sayItIsTheSame(job, edit, at);
    case 'conductors':
    case 'reread':
      return stillTheSame(withPhoto(job, edit, at));
    case 'reading':
      // A reading under voltage means that the supply is on, whatever was confirmed before.
      return withPhoto(isLive(edit.reading) ? withoutLifting(job) : job, edit, at);
    default:
      return withPhoto(job, edit, at);
  }
}

const withPhoto = (job: Job, edit: PhotoEdit, at: string): Job => ({
  ...job,
  photos: job.photos.map((p) => (p.id === edit.photo ? applyToPhoto(p, edit, at) : p)),
});

const isLive = ({ function: dial, condition }: Reading): boolean =>
  dial !== 'continuity' && dial !== 'tone' && !condition?.startsWith('supply off');

const LIFTING = new Set(SAFETY_STEPS.filter((s) => s.moment === 'before anything is lifted').map((s) => s.id));

const withoutLifting = (job: Job): Job => ({
  ...job,
  acknowledgements: job.acknowledgements.filter((a) => !LIFTING.has(a.step)),
});

type PhotoEdit = Extract<
  Edit,
  { type: 'note' | 'conductors' | 'reread' | 'word' | 'scale' | 'compared' | 'reading' | 'take back' }
>;

function applyToPhoto(photo: JobPhoto, edit: PhotoEdit, at: string): JobPhoto {
  switch (edit.type) {
    case 'note':
      return { ...photo, note: edit.note };
    case 'compared':
      return withComparison(photo, edit.comparison);
    case 'scale': {
      const { scale: _, ...others } = photo;
      return edit.scale ? { ...others, scale: edit.scale } : others;
    }
    case 'reading':
      return { ...photo, readings: [...photo.readings, edit.reading] };
    case 'take back':
      return {
        ...photo,
        readings: photo.readings.map((r) => (r.id === edit.reading ? { ...r, takenBack: { by: edit.by, at } } : r)),
      };
    case 'conductors':
      return edited(
        replaceConductors(photo, edit.removed, edit.added),
        [...edit.removed, ...edit.added.map((c) => c.id)],
        at,
      );
    case 'reread':
      return edited(
        { ...photo, findings: { ...photo.findings, references: edit.references, conductors: edit.conductors } },
        edit.conductors.map((c) => c.id),
        at,
      );
    case 'word': {
      const { [edit.conductor]: _, ...others } = photo.words;
      return edited(
        { ...photo, words: edit.word ? { ...others, [edit.conductor]: edit.word } : others },
        [edit.conductor],
        at,
      );
    }
  }
}

/**
 * Marks conductors as changed by hand: what was metered before that has to be measured again, and what was compared has
 * to be compared again.
 */
function edited(photo: JobPhoto, ids: readonly string[], at: string): JobPhoto {
  const edits = { ...photo.edits, ...Object.fromEntries(ids.map((id) => [id, at])) };
  const kept = photo.comparisons?.filter(({ conductors }) => !conductors.some((id) => ids.includes(id)));
  return { ...photo, edits, ...(kept && { comparisons: kept }) };
}

/** A later answer about the same two takes the place of the earlier one. */
function withComparison(photo: JobPhoto, comparison: ColorComparison): JobPhoto {
  const pair = new Set(comparison.conductors);
  const others = (photo.comparisons ?? []).filter(({ conductors }) => !conductors.every((id) => pair.has(id)));
  return { ...photo, comparisons: [...others, comparison] };
}
