import type { Job } from '../../src/flow';
import { exportJob, nextEntry } from '../../src/record';

/** A job that was saved once, with the bytes of its photos by their ids, as the file that an export writes. */
export async function exported(job: Job, at: string, photos: ReadonlyMap<string, Uint8Array<ArrayBuffer>> = new Map()) {
  const log = [await nextEntry(undefined, job, at, [])];
  const blobs = new Map([...photos].map(([id, bytes]) => [id, new Blob([bytes], { type: 'image/jpeg' })] as const));
  return Buffer.from(JSON.stringify(await exportJob(job, log, blobs, at)));
}
