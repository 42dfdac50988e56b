import type { IDBPDatabase } from 'idb';
import { type Job, type JobPhoto, type LogEntry, Problem } from '../flow';
import { committed } from './committed';
import { ofJob, type RecordDb } from './database';
import { hashValue } from './hash';
import { shellOf } from './job-hash';
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

/** A job put together from its shell and its photos' parts; a missing part leaves its photo out, which the hash shows. */
export async function readJob(db: Db, id: string): Promise<Job | undefined> {
  const transaction = readingAll(db, ['jobs', 'parts']);
  const [shell, parts] = await Promise.all([
    transaction.objectStore('jobs').get(id),
    transaction.objectStore('parts').getAll(ofJob(id)),
  ]);
  if (!shell) return undefined;
  const byId = new Map(parts.map((part) => [part.id, part.photo]));
  return { ...shell, photos: shell.photos.flatMap((p) => byId.get(p.id) ?? []) };
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
  await proveWritten(db, shell, changed, entries, last);
}

async function proveWritten(
  db: Db,
  shell: Awaited<ReturnType<typeof shellOf>>,
  changed: readonly JobPhoto[],
  entries: readonly LogEntry[],
  last: LogEntry | undefined,
): Promise<void> {
  const readBack = await reading(db, 'jobs').get(shell.id);
  if (!readBack || (await hashValue(readBack)) !== entries.at(-1)?.jobHash) throw new Problem('save not verified');
  const hashes = new Map(shell.photos.map((p) => [p.id, p.hash]));
  for (const { id } of changed) {
    const part = await reading(db, 'parts').get([shell.id, id]);
    if (!part || (await hashValue(part.photo)) !== hashes.get(id)) throw new Problem('save not verified');
  }
  const from = last ? last.sequence + 1 : 0;
  const tail = await reading(db, 'log').getAll(IDBKeyRange.bound([shell.id, from], [shell.id, []]));
  const expected = entries.map((entry) => ({ ...entry, job: shell.id }));
  if ((await hashValue(tail)) !== (await hashValue(expected))) throw new Problem('save not verified');
}
