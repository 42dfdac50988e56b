import type { IDBPDatabase } from 'idb';
import { type Job, Problem } from '../flow';
import { committed } from './committed';
import { type KeptPhoto, ofJob, type RecordDb } from './database';
import { hashBytes } from './hash';
import { reading } from './reading';

type Db = IDBPDatabase<RecordDb>;

/** Writes a photo's bytes, reads them back and compares. @throws Problem 'save not verified'. */
export async function writePhoto(db: Db, job: string, photo: string, blob: Blob, name?: string): Promise<void> {
  const bytes = await blob.arrayBuffer();
  const sha256 = await hashBytes(new Uint8Array(bytes));
  const named = name === undefined ? {} : { name };
  const kept: KeptPhoto = { job, photo, sha256, type: blob.type, bytes, ...named };
  const transaction = db.transaction('photos', 'readwrite', { durability: 'strict' });
  await committed(transaction, [transaction.store.put(kept)]);
  const readBack = await reading(db, 'photos').get([job, photo]);
  if (!readBack || (await hashBytes(new Uint8Array(readBack.bytes))) !== kept.sha256)
    throw new Problem('save not verified');
}

export async function readPhoto(db: Db, job: string, photo: string): Promise<Blob | null> {
  const kept = await reading(db, 'photos').get([job, photo]);
  if (!kept) return null;
  const { bytes, type, name } = kept;
  return name === undefined ? new Blob([bytes], { type }) : new File([bytes], name, { type });
}

/** Photos whose bytes wait to be read: ids of this form, in the order they came in. */
const WAITING = 'q-';

/**
 * Takes a photo into the job's queue under an id made of its hash, so that the same photo is noticed.
 * @returns its id, or null when the job has it already, waiting or read.
 */
export async function enqueue(db: Db, job: Job, order: number, file: Blob, name: string): Promise<string | null> {
  const sha256 = await hashBytes(new Uint8Array(await file.arrayBuffer()));
  const mark = sha256.slice(0, 20);
  const known = job.photos.some((p) => p.findings.photo.sha256 === sha256);
  const keys = await reading(db, 'photos').getAllKeys(ofJob(job.id));
  if (known || keys.some(([, photo]) => photo.startsWith(WAITING) && photo.endsWith(mark))) return null;
  const id = `${WAITING}${String(order).padStart(14, '0')}-${mark}`;
  await writePhoto(db, job.id, id, file, name);
  return id;
}

/** Ids of the photos that wait, first come first. Only keys are read: the bytes may be hundreds of megabytes. */
export async function waitingPhotos(db: Db, job: Job): Promise<string[]> {
  const keys = await reading(db, 'photos').getAllKeys(ofJob(job.id));
  const read = new Set(job.photos.map((p) => p.id));
  return keys.map(([, photo]) => photo).filter((photo) => photo.startsWith(WAITING) && !read.has(photo));
}
