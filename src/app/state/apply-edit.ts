import type { Job, JobPhoto } from '../../flow';
import { replaceConductors } from './conductors';
import type { Edit } from './edit';

/** The job after an edit; the same object when nothing changed. Phase maps follow by `mapped`. */
export function applyEdit(job: Job, edit: Edit): Job {
  switch (edit.type) {
    case 'title':
      return edit.title === job.title ? job : { ...job, title: edit.title };
    case 'by':
      return edit.by === job.by ? job : { ...job, by: edit.by };
    case 'site':
      return { ...job, site: edit.site };
    case 'meter':
      return { ...job, meter: edit.meter };
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
    case 'add photo':
      return { ...job, photos: [...job.photos, edit.photo] };
    case 'remove photo':
      return { ...job, photos: job.photos.filter((p) => p.id !== edit.photo) };
    default:
      return { ...job, photos: job.photos.map((p) => (p.id === edit.photo ? applyToPhoto(p, edit) : p)) };
  }
}

type PhotoEdit = Extract<Edit, { type: 'note' | 'conductors' | 'reread' | 'word' | 'reading' }>;

function applyToPhoto(photo: JobPhoto, edit: PhotoEdit): JobPhoto {
  switch (edit.type) {
    case 'note':
      return { ...photo, note: edit.note };
    case 'reading':
      return { ...photo, readings: [...photo.readings, edit.reading] };
    case 'conductors':
      return replaceConductors(photo, edit.removed, edit.added);
    case 'reread':
      return {
        ...photo,
        findings: { ...photo.findings, references: edit.references, conductors: edit.conductors },
      };
    case 'word': {
      const { [edit.conductor]: _, ...others } = photo.words;
      return { ...photo, words: edit.word ? { ...others, [edit.conductor]: edit.word } : others };
    }
  }
}
