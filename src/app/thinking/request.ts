import type { Job, JobPhoto, NamedConductor, UserWord } from '../../flow';
import { meterOptions } from '../state/meter-options';
import { siteOfPhoto } from '../state/site';
import type { ThinkRequest } from './think';

/** The conductors of a photo, each carrying the user's word about it. */
export const conductorsWithWords = (photo: JobPhoto): NamedConductor[] =>
  photo.findings.conductors.map((conductor) => withWord(conductor, photo.words[conductor.id]));

/** What was made of a conductor and a word before: the same again, or all that rests on it would be worked out anew. */
const spoken = new WeakMap<NamedConductor, NamedConductor>();

function withWord(conductor: NamedConductor, word: UserWord | undefined): NamedConductor {
  if (conductor.userWord === word) return conductor;
  const before = spoken.get(conductor);
  if (before && before.userWord === word) return before;
  const { userWord: _, ...bare } = conductor;
  const made = word ? { ...bare, userWord: word } : bare;
  spoken.set(conductor, made);
  return made;
}

/** Everything that thinking about a photo rests on. */
export const requestFor = (job: Job, photo: JobPhoto, map: ThinkRequest['map']): ThinkRequest => ({
  conductors: conductorsWithWords(photo),
  site: siteOfPhoto(job.site, photo),
  readings: photo.readings,
  options: meterOptions(job, photo),
  map,
});
