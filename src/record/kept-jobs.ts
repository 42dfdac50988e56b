import type { IDBPDatabase } from 'idb';
import { type Job, type JobPhoto, type LogEntry, Problem } from '../flow';
import { committed } from './committed';
import { ofJob, type RecordDb } from './database';
import { hashValue } from './hash';
import { type JobShell, shellOf } from './job-hash';
import { reading, readingAll } from './reading';

type Db = IDBPDatabase<RecordDb>;

export const readLog = async (db: Db, id: string): Promise<LogEntry[]> =>
  (await reading(db, 'log').getAll(ofJob(id))).map(({ job: _job, ...entry }) => entry);

export async function readLastEntry(db: Db, id: string): Promise<LogEntry | undefined> {
  const cursor = await reading(db, 'log').openCursor(ofJob(id), 'prev');
  if (!cursor) return undefined;
  const { job: _job, ...entry } = cursor.value;
  return entry;
}

/** What is kept of a job at one moment: both in one transaction, or a save of another tab could come between them. */
export interface Kept {
  readonly job: Job | undefined;
  readonly log: LogEntry[];
}

/** A job put together from its shell and its photos' parts; a missing part leaves its photo out, which the hash shows. */
export async function readKept(db: Db, id: string): Promise<Kept> {
  const transaction = readingAll(db, ['jobs', 'parts', 'log']);
  const [shell, parts, entries] = await Promise.all([
    transaction.objectStore('jobs').get(id),
    transaction.objectStore('parts').getAll(ofJob(id)),
    transaction.objectStore('log').getAll(ofJob(id)),
  ]);
  const log = entries.map(({ job: _job, ...entry }) => entry);
  if (!shell) return { job: undefined, log };
  const byId = new Map(parts.map((part) => [part.id, part.photo]));
  return { job: { ...shell, photos: shell.photos.flatMap((p) => byId.get(p.id) ?? []) }, log };
}

/**
 * Writes a job, what changed of its photos, and new log entries in one transaction; then reads it all back and
 * compares hashes. `last` is the log entry that the new ones follow.
 * @throws Problem 'changed elsewhere' when another tab wrote meanwhile, 'save not verified'.
 */
export async function writeJob(
  db: Db,
  job: Job,
  entries: readonly LogEntry[],
  last: LogEntry | undefined,
): Promise<void> {
  const shell = await shellOf(job);
  const kept = new Map((await reading(db, 'jobs').get(job.id))?.photos.map((p) => [p.id, p.hash]));
  const changed = job.photos.filter((photo, k) => kept.get(photo.id) !== shell.photos[k]?.hash);
  const gone = [...kept.keys()].filter((id) => !job.photos.some((photo) => photo.id === id));

  const transaction = db.transaction(['jobs', 'parts', 'log'], 'readwrite', { durability: 'strict' });
  const parts = transaction.objectStore('parts');
  const log = transaction.objectStore('log');
  await committed(transaction, [
    transaction.objectStore('jobs').put(shell),
    ...changed.map((photo) => parts.put({ job: job.id, id: photo.id, photo })),
    ...gone.map((id) => parts.delete([job.id, id])),
    // Another tab may have written since `last` was read: `add` then fails on the key it took.
    ...entries.map((entry) => log.add({ ...entry, job: job.id })),
  ]).catch((error: unknown) => {
    const name = (error as { name?: unknown }).name;
    throw name === 'ConstraintError' ? new Problem('changed elsewhere', undefined, error) : error;
  });
  await proveWritten(db, job.id, changed, entries, last);
}

/**
 * Reads back what was written. Another tab may have opened the job since and saved on top of it: then the entries of this
 * save must be followed by that one's, and what is kept must be as the last of them says.
 */
async function proveWritten(
  db: Db,
  id: string,
  changed: readonly JobPhoto[],
  entries: readonly LogEntry[],
  last: LogEntry | undefined,
): Promise<void> {
  const from = last ? last.sequence + 1 : 0;
  const expected = await hashValue(entries.map((entry) => ({ ...entry, job: id })));
  for (let latest: string | undefined; ; ) {
    const transaction = readingAll(db, ['jobs', 'log']);
    const [shell, tail] = await Promise.all([
      transaction.objectStore('jobs').get(id),
      transaction.objectStore('log').getAll(IDBKeyRange.bound([id, from], [id, []])),
    ]);
    const end = tail.at(-1);
    if (!shell || !end || (await hashValue(shell)) !== end.jobHash) throw new Problem('save not verified');
    if ((await hashValue(tail.slice(0, entries.length))) !== expected) throw new Problem('save not verified');
    if (await partsAre(db, shell, changed)) return;
    // A save of another tab between the two looks is no fault; without one, it is.
    if (end.hash === latest) throw new Problem('save not verified');
    latest = end.hash;
  }
}

/** One after the other: a job's photos need not stand in memory a second time. */
async function partsAre(db: Db, shell: JobShell, changed: readonly JobPhoto[]): Promise<boolean> {
  const hashes = new Map(shell.photos.map((p) => [p.id, p.hash]));
  for (const { id } of changed) {
    if (!hashes.has(id)) continue;
    const part = await reading(db, 'parts').get([shell.id, id]);
    if (!part || (await hashValue(part.photo)) !== hashes.get(id)) return false;
  }
  return true;
}
