import type { IDBPDatabase } from 'idb';
import { Problem } from '../flow';
import type { KeptPhoto, RecordDb } from './database';
import { hashBytes } from './hash';

type Db = IDBPDatabase<RecordDb>;

/** Writes a photo's bytes, reads them back and compares. @throws Problem 'save not verified'. */
export async function writePhoto(db: Db, job: string, photo: string, blob: Blob): Promise<void> {
  const bytes = await blob.arrayBuffer();
  const kept: KeptPhoto = { job, photo, sha256: await hashBytes(new Uint8Array(bytes)), type: blob.type, bytes };
  const transaction = db.transaction('photos', 'readwrite', { durability: 'strict' });
  await Promise.all([transaction.store.put(kept), transaction.done]);
  const readBack = await db.get('photos', [job, photo]);
  if (!readBack || (await hashBytes(new Uint8Array(readBack.bytes))) !== kept.sha256)
    throw new Problem('save not verified');
}

export async function readPhoto(db: Db, job: string, photo: string): Promise<Blob | null> {
  const kept = await db.get('photos', [job, photo]);
  return kept ? new Blob([kept.bytes], { type: kept.type }) : null;
}
