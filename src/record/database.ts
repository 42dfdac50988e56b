import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { JobPhoto, LogEntry } from '../flow';
import type { JobShell } from './job-hash';
import { guarded } from './storage-problem';

/** A photo's bytes as kept; `sha256` was compared after writing. */
export interface KeptPhoto {
  readonly job: string;
  readonly photo: string;
  readonly sha256: string;
  readonly type: string;
  /** File name as given, where there was one. Untrusted text. */
  readonly name?: string;
  /** Bytes, not a Blob: some browsers lose the file behind a stored Blob when they restart. */
  readonly bytes: ArrayBuffer;
}

export interface RecordDb extends DBSchema {
  jobs: { key: string; value: JobShell };
  /** What was read from each photo of a job: written only where it changed. */
  parts: {
    key: [job: string, photo: string];
    value: { readonly job: string; readonly id: string; readonly photo: JobPhoto };
  };
  log: { key: [job: string, sequence: number]; value: LogEntry & { readonly job: string } };
  photos: { key: [job: string, photo: string]; value: KeptPhoto };
}

const VERSION = 1;

/** Opens (and on first use lays out) the database. A newer tab that needs a new layout closes this one. */
export function openRecordDb(name: string): Promise<IDBPDatabase<RecordDb>> {
  return guarded(() =>
    openDB<RecordDb>(name, VERSION, {
      upgrade(db, from) {
        if (from < 1) {
          db.createObjectStore('jobs', { keyPath: 'id' });
          db.createObjectStore('parts', { keyPath: ['job', 'id'] });
          db.createObjectStore('log', { keyPath: ['job', 'sequence'] });
          db.createObjectStore('photos', { keyPath: ['job', 'photo'] });
        }
      },
      blocking(_from, _to, event) {
        (event.target as IDBDatabase).close();
      },
    }),
  );
}

/** All log entries, parts or photos of one job: keys [job] to [job, the highest]. */
export const ofJob = (job: string): IDBKeyRange => IDBKeyRange.bound([job], [job, []]);
