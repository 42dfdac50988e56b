import type { Job, JobPhoto } from '../flow';
import { hashValue } from './hash';

/** A job with each photo's findings, words and readings stood in for by their hash. */
export type JobShell = Omit<Job, 'photos'> & {
  readonly photos: readonly { readonly id: string; readonly hash: string }[];
};

/** Values of the flow never change, so that a photo hashed once need not be hashed at each save of a large job. */
const known = new WeakMap<JobPhoto, string>();

async function hashPhoto(photo: JobPhoto): Promise<string> {
  const hash = known.get(photo) ?? (await hashValue(photo));
  known.set(photo, hash);
  return hash;
}

/** One photo after another: a hundred in one go would hold up the page. */
export async function shellOf(job: Job): Promise<JobShell> {
  const photos: { id: string; hash: string }[] = [];
  for (const photo of job.photos) photos.push({ id: photo.id, hash: await hashPhoto(photo) });
  return { ...job, photos };
}

/** Hash of a whole job: of its shell, and through it of every photo. */
export const hashJob = async (job: Job): Promise<string> => hashValue(await shellOf(job));
