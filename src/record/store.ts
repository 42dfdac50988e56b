import type { IDBPDatabase } from 'idb';
import { type Job, type LogEntry, message, Problem } from '../flow';
import { chainFault, continues, nextEntry } from './chain';
import { changesBetween } from './changes';
import { conductorTable, type Standings } from './conductor-table';
import { type KeptPhoto, ofJob, openRecordDb, type RecordDb } from './database';
import { exportJob, type PhotoBytes } from './export';
import { hashBytes, hashValue } from './hash';
import { importJob } from './import';
import { migrate } from './migrate';
import { guarded } from './storage-problem';

/** What the list of kept jobs shows without opening them. */
export interface JobSummary {
  readonly id: string;
  readonly title: string;
  readonly by: string;
  readonly createdAt: string;
  readonly photos: number;
  readonly demo: boolean;
}

/** Jobs on this device. Every method rejects with a `Problem` and nothing else. */
export interface JobStore {
  /** Newest first. */
  list(): Promise<readonly JobSummary[]>;
  /** Null when this device has no such job. @throws Problem 'record changed' when its hashes do not fit. */
  open(id: string): Promise<Job | null>;
  /** The job's log, first entry first; empty when there is no such job. */
  log(id: string): Promise<readonly LogEntry[]>;
  /**
   * Resolves only after what was written has been read back and its hash found the same.
   * @throws Problem 'changed elsewhere' when another tab saved this job since it was opened or saved here,
   *   'save not verified', 'storage full', 'storage unavailable'.
   */
  save(job: Job): Promise<void>;
  /** Keeps a photo's original bytes, read back and compared; call before saving a job that refers to it. */
  keepPhoto(job: string, photo: string, bytes: Blob): Promise<void>;
  /** The original bytes, or null when they are not here. */
  photo(job: string, photo: string): Promise<Blob | null>;
  /** Deletes a job with its log and photos. */
  remove(id: string): Promise<void>;
  /** One JSON file with the kept log, and the photos that are here. Takes the job as on screen, saved or not. */
  exportJson(job: Job): Promise<Blob>;
  exportCsv(job: Job, standings?: Standings): Promise<Blob>;
  /**
   * Adds an exported job; returns its id. A later state of a job that is here replaces it, an earlier one changes
   * nothing, and one that went another way becomes a copy under a new id.
   */
  importJson(file: Blob): Promise<string>;
  close(): void;
}

export interface StoreOptions {
  readonly name?: string;
  readonly now?: () => string;
  readonly newId?: () => string;
}

/** One after another, whatever happens to the one before. */
function queue(): <T>(work: () => Promise<T>) => Promise<T> {
  let tail: Promise<unknown> = Promise.resolve();
  return (work) => {
    const next = tail.then(work, work);
    tail = next.catch(() => {});
    return next;
  };
}

class IdbJobStore implements JobStore {
  private readonly inTurn = queue();
  /** Hash of each job's last log entry as this tab knows it; tells saves of another tab. */
  private readonly known = new Map<string, string>();

  constructor(
    private readonly db: IDBPDatabase<RecordDb>,
    private readonly now: () => string,
    private readonly newId: () => string,
  ) {}

  list(): Promise<readonly JobSummary[]> {
    return guarded(async () =>
      (await this.db.getAll('jobs'))
        .map(({ id, title, by, createdAt, photos, demo }) => ({
          id,
          title,
          by,
          createdAt,
          photos: photos.length,
          demo,
        }))
        .sort((a, b) => b.createdAt.localeCompare(a.createdAt)),
    );
  }

  open(id: string): Promise<Job | null> {
    return guarded(async () => {
      const job = await this.db.get('jobs', id);
      if (!job) return null;
      const log = await this.log(id);
      if (await chainFault(job, log)) throw new Problem('record changed');
      this.known.set(id, log.at(-1)?.hash ?? '');
      return migrate(job);
    });
  }

  log(id: string): Promise<readonly LogEntry[]> {
    return guarded(async () => (await this.db.getAll('log', ofJob(id))).map(({ job: _job, ...entry }) => entry));
  }

  save(job: Job): Promise<void> {
    return this.inTurn(() => guarded(() => this.append(job)));
  }

  private async append(job: Job): Promise<void> {
    const before = await this.db.get('jobs', job.id);
    const last = (await this.log(job.id)).at(-1);
    const known = this.known.get(job.id);
    if (known !== undefined && known !== (last?.hash ?? '')) throw new Problem('changed elsewhere');
    const changes = changesBetween(before, job);
    if (last && changes.length === 0) return;
    await this.write(job, [await nextEntry(last, job, this.now(), changes)], last?.sequence);
  }

  /** Writes a job and new log entries in one transaction, then reads all of it back. */
  private async write(job: Job, entries: readonly LogEntry[], after: number | undefined): Promise<void> {
    const transaction = this.db.transaction(['jobs', 'log'], 'readwrite', { durability: 'strict' });
    const log = transaction.objectStore('log');
    // Another tab may have written since `after` was read: `add` then fails on the key it took.
    await Promise.all([
      transaction.objectStore('jobs').put(job),
      ...entries.map((entry) => log.add({ ...entry, job: job.id })),
      transaction.done,
    ]).catch((error: unknown) => {
      const name = (error as { name?: unknown }).name;
      throw name === 'ConstraintError' ? new Problem('changed elsewhere', undefined, error) : error;
    });
    const newest = entries.at(-1);
    const readBack = await this.db.get('jobs', job.id);
    const tail = (await this.log(job.id)).slice(after === undefined ? 0 : after + 1);
    const whole = readBack && newest && (await hashValue(readBack)) === newest.jobHash;
    if (!whole || (await hashValue(tail)) !== (await hashValue(entries))) throw new Problem('save not verified');
    this.known.set(job.id, newest.hash);
  }

  keepPhoto(job: string, photo: string, bytes: Blob): Promise<void> {
    return this.inTurn(() => guarded(() => this.putPhoto(job, photo, bytes)));
  }

  private async putPhoto(job: string, photo: string, blob: Blob): Promise<void> {
    const bytes = await blob.arrayBuffer();
    const kept: KeptPhoto = { job, photo, sha256: await hashBytes(new Uint8Array(bytes)), type: blob.type, bytes };
    const transaction = this.db.transaction('photos', 'readwrite', { durability: 'strict' });
    await Promise.all([transaction.store.put(kept), transaction.done]);
    const readBack = await this.db.get('photos', [job, photo]);
    if (!readBack || (await hashBytes(new Uint8Array(readBack.bytes))) !== kept.sha256)
      throw new Problem('save not verified');
  }

  photo(job: string, photo: string): Promise<Blob | null> {
    return guarded(async () => {
      const kept = await this.db.get('photos', [job, photo]);
      return kept ? new Blob([kept.bytes], { type: kept.type }) : null;
    });
  }

  remove(id: string): Promise<void> {
    return this.inTurn(() =>
      guarded(async () => {
        const transaction = this.db.transaction(['jobs', 'log', 'photos'], 'readwrite', { durability: 'strict' });
        await Promise.all([
          transaction.objectStore('jobs').delete(id),
          transaction.objectStore('log').delete(ofJob(id)),
          transaction.objectStore('photos').delete(ofJob(id)),
          transaction.done,
        ]);
        this.known.delete(id);
      }),
    );
  }

  exportJson(job: Job): Promise<Blob> {
    return guarded(async () => {
      const kept = await this.db.get('jobs', job.id);
      const log = [...(await this.log(job.id))];
      const changes = changesBetween(kept, job);
      if (log.length === 0 || changes.length > 0) log.push(await nextEntry(log.at(-1), job, this.now(), changes));
      const photos = new Map<string, Blob>();
      for (const { id } of job.photos) {
        const bytes = await this.photo(job.id, id);
        if (bytes) photos.set(id, bytes);
      }
      const file = await exportJob(job, log, photos, this.now());
      return new Blob([JSON.stringify(file)], { type: 'application/json' });
    });
  }

  async exportCsv(job: Job, standings?: Standings): Promise<Blob> {
    return new Blob([conductorTable(job, standings)], { type: 'text/csv;charset=utf-8' });
  }

  importJson(file: Blob): Promise<string> {
    return this.inTurn(() =>
      guarded(async () => {
        const { job, log, photos } = await importJob(await file.text());
        const here = await this.log(job.id);
        if (here.length > 0 && continues(here, log)) {
          await this.keepPhotos(job.id, photos);
          return job.id;
        }
        if (here.length > 0 && !continues(log, here)) return this.importCopy(job, photos);
        await this.keepPhotos(job.id, photos);
        await this.write(job, log.slice(here.length), here.at(-1)?.sequence);
        return job.id;
      }),
    );
  }

  /** A copy starts a log of its own: the old one's hashes are of a job with another id. */
  private async importCopy(job: Job, photos: PhotoBytes): Promise<string> {
    const copy: Job = { ...job, id: this.newId() };
    const entry = await nextEntry(undefined, copy, this.now(), [message('record.change.imported-copy')]);
    await this.keepPhotos(copy.id, photos);
    await this.write(copy, [entry], undefined);
    return copy.id;
  }

  private async keepPhotos(job: string, photos: PhotoBytes): Promise<void> {
    for (const [photo, blob] of photos) await this.putPhoto(job, photo, blob);
  }

  close(): void {
    this.db.close();
  }
}

/**
 * Opens the jobs on this device.
 * @throws Problem 'storage unavailable' in a private window or where storage is switched off.
 */
export async function openJobStore({
  name = 'hueproof',
  now = () => new Date().toISOString(),
  newId = () => crypto.randomUUID(),
}: StoreOptions = {}): Promise<JobStore> {
  return new IdbJobStore(await openRecordDb(name), now, newId);
}
