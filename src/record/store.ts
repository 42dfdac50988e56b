import type { IDBPDatabase } from 'idb';
import { type Job, type LogEntry, message, Problem, type Termination } from '../flow';
import { chainFault, continues, nextEntry } from './chain';
import { changesBetween } from './changes';
import { nextWithoutPhoto } from './compare';
import { conductorTable, type Standings } from './conductor-table';
import { ofJob, openRecordDb, type RecordDb } from './database';
import { exportFile, type PhotoBytes } from './export';
import { hashValue } from './hash';
import { importJob } from './import';
import { hashJob, shellOf } from './job-hash';
import { readKept, readLastEntry, readLog, writeJob } from './kept-jobs';
import { enqueue, readPhoto, waitingPhotos, writePhoto } from './kept-photos';
import { migrate } from './migrate';
import { reading } from './reading';
import { guarded } from './storage-problem';

/** What the list of kept jobs shows without opening them. */
export interface JobSummary {
  readonly id: string;
  readonly title: string;
  readonly by: string;
  readonly createdAt: string;
  readonly photos: number;
  readonly demo: boolean;
  /** The first termination of its schedule without a photo; null: none is left, or there is no schedule. */
  readonly next: Termination | null;
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
  /**
   * Takes a photo into the job's queue, written and read back like any other, so that the queue outlives a reload.
   * Null when the job has the same photo already.
   */
  enqueue(job: Job, order: number, file: Blob, name: string): Promise<string | null>;
  /** Ids of photos that wait to be read, first come first. */
  waiting(job: Job): Promise<readonly string[]>;
  /** Takes a photo that waits out of the queue. */
  dequeue(job: string, photo: string): Promise<void>;
  /** Deletes a job with its log and photos. */
  remove(id: string): Promise<void>;
  /** One JSON file with the kept log, and the photos that are here. Takes the job as on screen, saved or not. */
  exportJson(job: Job): Promise<Blob>;
  exportCsv(job: Job, standings?: Standings): Promise<Blob>;
  /** One archive with the log, every photo that is here, and the hash of each. Takes the job as on screen. */
  exportArchive(job: Job): Promise<Blob>;
  /**
   * Adds an exported job, JSON or archive; returns its id. A later state of a job that is here replaces it, an earlier one changes
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

/** Zip files begin with a local header (PKWARE APPNOTE 4.3.7) or, when empty, with the end record (4.3.16). */
async function isZip(file: Blob): Promise<boolean> {
  const [p, k, three, four] = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  return p === 0x50 && k === 0x4b && ((three === 3 && four === 4) || (three === 5 && four === 6));
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

/** A job as this tab last saw it on the device. */
interface Seen {
  /** Absent when another job was seen since: it is read from the device again when its changes are told. */
  readonly job?: Job;
  /** Hash of its last log entry; tells saves of another tab. */
  readonly hash: string;
  /** It was kept in an older layout, which the next save changes. */
  readonly migrated?: true;
}

/** What the device holds of a job for an export, but for its photos. */
interface Written {
  readonly log: LogEntry[];
  readonly before: Job | undefined;
}

const nothingKept = (): Written => ({ log: [], before: undefined });

class IdbJobStore implements JobStore {
  private readonly turns = queue();
  private readonly seen = new Map<string, Seen>();

  private closed = false;

  constructor(
    private db: IDBPDatabase<RecordDb>,
    private readonly reopen: () => Promise<IDBPDatabase<RecordDb>>,
    private readonly now: () => string,
    private readonly newId: () => string,
  ) {}

  /** Writes one after another. Where the connection was lost under the page, it is opened anew and the write tried once more. */
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    return this.turns(() =>
      guarded(work).catch(async (error: unknown) => {
        if (this.closed || !(error instanceof Problem) || error.kind !== 'storage unavailable') throw error;
        if (!(await this.revive())) throw error;
        return guarded(work);
      }),
    );
  }

  /** A browser that throws its storage away closes the connection; the new one begins empty. False: it cannot be opened. */
  private async revive(): Promise<boolean> {
    try {
      this.db = await this.reopen();
      for (const id of this.seen.keys()) if (!(await readLastEntry(this.db, id))) this.seen.delete(id);
      return true;
    } catch {
      return false;
    }
  }

  list(): Promise<readonly JobSummary[]> {
    return guarded(async () =>
      (await reading(this.db, 'jobs').getAll())
        .map(({ photos, id, title, by, createdAt, demo, site, turnover }) => ({
          id,
          title,
          by,
          createdAt,
          photos: photos.length,
          demo,
          next: turnover ? nextWithoutPhoto(turnover, site.board) : null,
        }))
        .sort((a, b) => b.createdAt.localeCompare(a.createdAt)),
    );
  }

  open(id: string): Promise<Job | null> {
    return guarded(async () => {
      const { job: kept, log } = await readKept(this.db, id);
      if (!kept) return null;
      if (await chainFault(kept, log)) throw new Problem('record changed');
      const job = migrate(kept);
      const hash = log.at(-1)?.hash ?? '';
      this.remember(id, job === kept ? { job, hash } : { job, hash, migrated: true });
      return job;
    });
  }

  log(id: string): Promise<readonly LogEntry[]> {
    return guarded(() => readLog(this.db, id));
  }

  save(job: Job): Promise<void> {
    return this.inTurn(() => this.append(job));
  }

  private async append(job: Job): Promise<void> {
    const last = await readLastEntry(this.db, job.id);
    const seen = this.seen.get(job.id);
    if (seen && seen.hash !== last?.hash) throw new Problem('changed elsewhere');
    if (last?.jobHash === (await hashJob(job))) return;
    const changes = changesBetween(seen?.job ?? (await readKept(this.db, job.id)).job, job);
    const migrated = seen?.migrated ? [message('record.change.migrated')] : [];
    await this.write(job, [await nextEntry(last, job, this.now(), [...migrated, ...changes])], last);
  }

  private async write(job: Job, entries: readonly LogEntry[], last: LogEntry | undefined): Promise<void> {
    await writeJob(this.db, job, entries, last);
    this.remember(job.id, { job, hash: entries.at(-1)?.hash ?? '' });
  }

  /** Only one job is worked on: whole ones of all the others would fill the memory by and by. */
  private remember(id: string, seen: Seen): void {
    for (const [other, { hash, migrated }] of this.seen) if (!migrated) this.seen.set(other, { hash });
    this.seen.set(id, seen);
  }

  keepPhoto(job: string, photo: string, bytes: Blob): Promise<void> {
    return this.inTurn(() => writePhoto(this.db, job, photo, bytes));
  }

  photo(job: string, photo: string): Promise<Blob | null> {
    return guarded(() => readPhoto(this.db, job, photo));
  }

  enqueue(job: Job, order: number, file: Blob, name: string): Promise<string | null> {
    return this.inTurn(() => enqueue(this.db, job, order, file, name));
  }

  waiting(job: Job): Promise<readonly string[]> {
    return guarded(() => waitingPhotos(this.db, job));
  }

  dequeue(job: string, photo: string): Promise<void> {
    return this.inTurn(() => this.db.delete('photos', [job, photo]));
  }

  remove(id: string): Promise<void> {
    return this.inTurn(async () => {
      const transaction = this.db.transaction(['jobs', 'parts', 'log', 'photos'], 'readwrite', {
        durability: 'strict',
      });
      await Promise.all([
        transaction.objectStore('jobs').delete(id),
        transaction.objectStore('parts').delete(ofJob(id)),
        transaction.objectStore('log').delete(ofJob(id)),
        transaction.objectStore('photos').delete(ofJob(id)),
        transaction.done,
      ]);
      this.seen.delete(id);
    });
  }

  exportJson(job: Job): Promise<Blob> {
    return guarded(async () => {
      // A browser may throw its storage away in mid-job. What is on screen must get out all the same, with a log that
      // begins here; the screen says meanwhile that nothing is saved.
      const { log, before } = await this.written(job).catch(nothingKept);
      const photos = await this.photosOf(job).catch((): PhotoBytes => new Map());
      if (log.at(-1)?.jobHash !== (await hashJob(job)))
        log.push(await nextEntry(log.at(-1), job, this.now(), changesBetween(before, job)));
      return exportFile(job, log, photos, this.now());
    });
  }

  private async photosOf(job: Job): Promise<PhotoBytes> {
    const photos = new Map<string, Blob>();
    for (const { id } of job.photos) {
      const bytes = await readPhoto(this.db, job.id, id);
      if (bytes) photos.set(id, bytes);
    }
    return photos;
  }

  private async written({ id }: Job): Promise<Written> {
    const { log, job: before } = await readKept(this.db, id);
    return { log, before };
  }

  exportArchive(job: Job): Promise<Blob> {
    return guarded(async () => {
      const { sourceOf, writeArchive } = await import('./archive');
      const { log, before } = await this.written(job).catch(nothingKept);
      const shell = await shellOf(job);
      if (log.at(-1)?.jobHash !== (await hashValue(shell)))
        log.push(await nextEntry(log.at(-1), job, this.now(), changesBetween(before, job)));
      const { readable, writable } = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>();
      // A Response gathers the stream into a Blob that the browser may keep on disk.
      const blob = new Response(readable).blob();
      blob.catch(() => {});
      // A photo whose bytes are gone leaves what was read from it.
      const source = sourceOf(job, shell, log, (id) => readPhoto(this.db, job.id, id).catch(() => null));
      await writeArchive(source, writable, this.now());
      return new Blob([await blob], { type: 'application/zip' });
    });
  }

  async exportCsv(job: Job, standings?: Standings): Promise<Blob> {
    return new Blob([conductorTable(job, standings)], { type: 'text/csv;charset=utf-8' });
  }

  importJson(file: Blob): Promise<string> {
    return this.inTurn(async () => {
      if (await isZip(file)) return this.importArchive(file);
      const { job, log, photos } = await importJob(await file.text());
      return this.add(job, log, (id) => this.writePhotos(id, photos));
    });
  }

  private async importArchive(file: Blob): Promise<string> {
    const { readArchive } = await import('./archive');
    const archive = await readArchive(file);
    try {
      return await this.add(archive.job, archive.log, async (id) => {
        for (const photo of archive.withBytes) await writePhoto(this.db, id, photo, await archive.bytes(photo));
      });
    } finally {
      await archive.close();
    }
  }

  /** `writePhotos` writes the photos under the id that the job gets here. */
  private async add(job: Job, log: readonly LogEntry[], writePhotos: (id: string) => Promise<void>): Promise<string> {
    const here = await readLog(this.db, job.id);
    const earlier = here.length > 0 && continues(here, log);
    if (here.length > 0 && !earlier && !continues(log, here)) return this.importCopy(job, writePhotos);
    await writePhotos(job.id);
    if (!earlier) await this.write(job, log.slice(here.length), here.at(-1));
    return job.id;
  }

  /** A copy starts a log of its own: the old one's hashes are of a job with another id. */
  private async importCopy(job: Job, writePhotos: (id: string) => Promise<void>): Promise<string> {
    const copy: Job = { ...job, id: this.newId() };
    const entry = await nextEntry(undefined, copy, this.now(), [message('record.change.imported-copy')]);
    await writePhotos(copy.id);
    await this.write(copy, [entry], undefined);
    return copy.id;
  }

  private async writePhotos(job: string, photos: PhotoBytes): Promise<void> {
    for (const [photo, blob] of photos) await writePhoto(this.db, job, photo, blob);
  }

  close(): void {
    this.closed = true;
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
  return new IdbJobStore(await openRecordDb(name), () => openRecordDb(name), now, newId);
}
