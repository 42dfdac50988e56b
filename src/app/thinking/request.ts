import type { Job, JobPhoto, NamedConductor } from '../../flow';
import { meterOptions } from '../state/meter-options';
import { siteOfPhoto } from '../state/site';
import type { ThinkRequest } from './think';

/** The conductors of a photo, each carrying the user's word about it. */
export const conductorsWithWords = (photo: JobPhoto): NamedConductor[] =>
  photo.findings.conductors.map((conductor) => {
    const { userWord: _, ...bare } = conductor;
    const word = photo.words[conductor.id];
    return word ? { ...bare, userWord: word } : bare;
  });

/** Everything that thinking about a photo rests on. */
export const requestFor = (job: Job, photo: JobPhoto, map: ThinkRequest['map']): ThinkRequest => ({
  conductors: conductorsWithWords(photo),
  site: siteOfPhoto(job.site, photo),
  readings: photo.readings,
  options: meterOptions(job, photo),
  map,
});
