import { openDB } from 'idb';
import { Problem } from '../flow';
import { hashBytes } from './hash';
import { guarded } from './storage-problem';

/** What is needed of a folder that the user picked (File System Access, WICG; the handle itself is WHATWG File System). */
export interface PickedFolder {
  readonly name: string;
  getFileHandle(name: string, options: { readonly create: boolean }): Promise<FileSystemFileHandle>;
  /** Absent where the browser asks for nothing more. */
  queryPermission?(wanted: { readonly mode: 'readwrite' }): Promise<PermissionState>;
  requestPermission?(wanted: { readonly mode: 'readwrite' }): Promise<PermissionState>;
}

/** Where a job's second copy goes, and what was last written there. */
export interface CopyPlace {
  readonly folder: PickedFolder;
  /** File in the folder. */
  readonly file: string;
  /** ISO 8601; null before the first copy. */
  readonly writtenAt: string | null;
  /** Hash of the log's last entry in that copy; null before the first. */
  readonly holds: string | null;
}

/** Places lie in a database of their own: a handle is no part of a record and never leaves this browser. */
const places = () =>
  openDB('hueproof-copies', 1, {
    upgrade(db) {
      db.createObjectStore('places');
    },
  });

export const copyPlace = (job: string): Promise<CopyPlace | null> =>
  guarded(async () => {
    const db = await places();
    try {
      const transaction = db.transaction('places');
      // A read that fails says so itself.
      transaction.done.catch(() => {});
      return ((await transaction.store.get(job)) as CopyPlace | undefined) ?? null;
    } finally {
      db.close();
    }
  });

export const keepCopyPlace = (job: string, place: CopyPlace | null): Promise<void> =>
  guarded(async () => {
    const db = await places();
    try {
      if (place) await db.put('places', place, job);
      else await db.delete('places', job);
    } finally {
      db.close();
    }
  });

/** True when the folder may be written to. `ask`: the user may be asked, which a browser allows only after a touch. */
export async function mayWrite(folder: PickedFolder, ask: boolean): Promise<boolean> {
  const mode = { mode: 'readwrite' } as const;
  if ((await folder.queryPermission?.(mode)) === 'granted' || !folder.queryPermission) return true;
  return ask && (await folder.requestPermission?.(mode)) === 'granted';
}

/**
 * Writes the copy beside the old one and puts it in its place only when it is whole (that is what closing the stream
 * does), then reads it back and compares.
 * @throws Problem 'save not verified', 'storage full', 'storage unavailable'.
 */
export const writeCopy = (folder: PickedFolder, name: string, copy: Blob): Promise<void> =>
  guarded(async () => {
    const file = await folder.getFileHandle(name, { create: true });
    const out = await file.createWritable();
    await copy.stream().pipeTo(out);
    const back = await file.getFile();
    if (back.size !== copy.size || (await hashOf(back)) !== (await hashOf(copy)))
      throw new Problem('save not verified');
  });

/** Pieces are hashed one by one and then their hashes: two copies of hundreds of megabytes never stand in memory. */
async function hashOf(blob: Blob): Promise<string> {
  const piece = 2 ** 24;
  let hashes = '';
  for (let at = 0; at < blob.size; at += piece)
    hashes += await hashBytes(new Uint8Array(await blob.slice(at, at + piece).arrayBuffer()));
  return hashBytes(new TextEncoder().encode(hashes));
}
