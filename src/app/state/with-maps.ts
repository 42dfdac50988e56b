import type { Job, JobPhoto, NamedConductor } from '../../flow';
import { identify } from '../../identify';
import { siteOfPhoto } from './site';

/** The conductors of a photo, each carrying the user's word about it. */
export const conductorsWithWords = (photo: JobPhoto): NamedConductor[] =>
  photo.findings.conductors.map((conductor) => {
    const { userWord: _, ...bare } = conductor;
    const word = photo.words[conductor.id];
    return word ? { ...bare, userWord: word } : bare;
  });

/**
 * Brings the phase maps of a job up to date: a map depends on the conductors, the user's words about them and what
 * is known of the site, so only photos where one of these changed since `before` are inferred again.
 */
export function withMaps(job: Job, before: Job | null): Job {
  if (job === before) return job;
  const siteChanged = job.site !== before?.site;
  let changed = false;
  const photos = job.photos.map((photo) => {
    const old = before?.photos.find((p) => p.id === photo.id);
    const same =
      !siteChanged && old && old.findings.conductors === photo.findings.conductors && old.words === photo.words;
    if (same) return photo;
    changed = true;
    const map = identify(conductorsWithWords(photo), siteOfPhoto(job.site, photo));
    return { ...photo, findings: { ...photo.findings, map } };
  });
  return changed ? { ...job, photos } : job;
}
