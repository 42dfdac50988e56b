import 'fake-indexeddb/auto';
import { IDBObjectStore as FakeObjectStore } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Job } from '../../src/flow';
import { chainFault, type JobStore, openJobStore } from '../../src/record';
import { seeded } from '../hard/random';
import { PHOTO_BYTES, reading, sampleJob } from './sample-job';

let counter = 0;
const named = (name: string, now = '2026-03-04T07:00:00Z'): Promise<JobStore> => openJobStore({ name, now: () => now });
const kindOf = (run: Promise<unknown>): Promise<string> =>
  run.then(
    () => 'saved',
    (error: { kind?: string }) => error.kind ?? String(error),
  );

afterEach(() => vi.restoreAllMocks());

/** Requests of a store that change something. */
const WRITES = ['put', 'add', 'delete'] as const;

const READS = ['get', 'getAll', 'getAllKeys', 'openCursor'] as const;

/** Every request that reads fails at once with this error. */
function failReads(name: string): void {
  for (const method of READS)
    vi.spyOn(FakeObjectStore.prototype, method).mockImplementation(() => {
      throw new DOMException('the disk does not answer', name);
    });
}

/** Every transaction that reads ends with this error under its request, as when a disk fails during the read. */
function endReads(name: string): void {
  for (const method of READS) {
    const original = FakeObjectStore.prototype[method] as (...args: unknown[]) => IDBRequest;
    vi.spyOn(FakeObjectStore.prototype, method).mockImplementation(function (this: IDBObjectStore, ...args: unknown[]) {
      const request = original.apply(this, args);
      const { transaction } = this as unknown as { transaction: { _abort(name: string): void } };
      queueMicrotask(() => transaction._abort(name));
      return request;
    } as never);
  }
}

/** From the nth write on, every transaction ends with this error, as when the page is killed or the disk is full. */
function failFrom(n: number, name: string): void {
  let count = 0;
  for (const method of WRITES) {
    const original = FakeObjectStore.prototype[method] as (...args: unknown[]) => IDBRequest;
    vi.spyOn(FakeObjectStore.prototype, method).mockImplementation(function (this: IDBObjectStore, ...args: unknown[]) {
      count += 1;
      const request = original.apply(this, args);
      // The fake's own way to end a transaction for a reason that is not the program's: never inside a call.
      const { transaction } = this as unknown as { transaction: { _abort(name: string): void; _state: string } };
      if (count >= n) queueMicrotask(() => transaction._state !== 'finished' && transaction._abort(name));
      return request;
    } as never);
  }
}

async function proved(name: string): Promise<{ readonly job: Job | null; readonly entries: number }> {
  const store = await named(name);
  const list = await store.list();
  const id = list[0]?.id;
  const job = id === undefined ? null : await store.open(id);
  const log = id === undefined ? [] : await store.log(id);
  if (job) expect(await chainFault(job, log)).toBeNull();
  store.close();
  return { job, entries: log.length };
}

describe('a save that is cut off', () => {
  it('at 1,000 seeded moments leaves the job as it was before or as it was to be, and its log whole', async () => {
    const random = seeded(8);
    const ended = { before: 0, after: 0 };
    const base = await sampleJob();
    for (let n = 0; n < 1000; n++) {
      const name = `cut-${++counter}`;
      const store = await named(name);
      const first: Job = { ...base, photos: [] };
      await store.save(first);
      const next: Job = {
        ...base,
        title: `Saved ${n}`,
        photos: Array.from({ length: 1 + Math.floor(random() * 4) }, (_, k) => ({
          ...(base.photos[0] as Job['photos'][number]),
          id: `p${k}`,
          readings: [reading(`r${k}`, 120 + n)],
        })),
      };
      failFrom(1 + Math.floor(random() * 10), 'AbortError');
      const told = await kindOf(store.keepPhoto(base.id, 'p0', new Blob([PHOTO_BYTES])).then(() => store.save(next)));
      vi.restoreAllMocks();
      store.close();
      const { job, entries } = await proved(name);
      if (told === 'saved') expect(job, `${n}`).toEqual(next);
      if (job?.title === next.title) {
        expect(job).toEqual(next);
        expect(entries).toBe(2);
        ended.after += 1;
      } else {
        expect(job).toEqual(first);
        expect(entries).toBe(1);
        ended.before += 1;
      }
    }
    expect(Math.min(ended.before, ended.after)).toBeGreaterThan(50);
  }, 120_000);

  it.each([
    ['QuotaExceededError', 'storage full'],
    ['UnknownError', 'storage unavailable'],
    ['NotReadableError', 'storage unavailable'],
  ])('by %s is told as %s, and works again afterwards', async (error, kind) => {
    const name = `fault-${++counter}`;
    const store = await named(name);
    const job = await sampleJob();
    await store.save({ ...job, photos: [] });
    failFrom(1, error);
    expect(await kindOf(store.save(job))).toBe(kind);
    const other = new Blob(['another photo']);
    expect(await kindOf(store.enqueue(job, 1, other, 'x.jpg'))).toBe(kind);
    vi.restoreAllMocks();
    expect(await kindOf(store.save(job))).toBe('saved');
    expect((await proved(name)).entries).toBe(2);
    store.close();
  });
});

describe('a disk that cannot be read', () => {
  it.each([
    ['UnknownError', failReads],
    ['NotReadableError', failReads],
    ['DataError', failReads],
    ['UnknownError', endReads],
  ] as const)('by %s (case %#): is told, and nothing is lost', async (error, fault) => {
    const unheard: unknown[] = [];
    const hear = (reason: unknown): void => void unheard.push(reason);
    process.on('unhandledRejection', hear);
    const name = `unread-${++counter}`;
    const store = await named(name);
    const job = await sampleJob();
    const [photo] = job.photos;
    await store.keepPhoto(job.id, photo?.id ?? '', new Blob([PHOTO_BYTES]));
    await store.save(job);
    fault(error);
    const told = [];
    for (const run of [
      () => store.list(),
      () => store.open(job.id),
      () => store.log(job.id),
      () => store.photo(job.id, photo?.id ?? ''),
      () => store.waiting(job),
      () => store.save({ ...job, title: 'later' }),
    ])
      told.push(await kindOf(run()));
    expect(told).toEqual(Array(told.length).fill('storage unavailable'));
    // No transaction ends with an error that nobody listens to: the page would report it as its own.
    await new Promise((done) => setTimeout(done, 20));
    process.off('unhandledRejection', hear);
    expect(unheard).toEqual([]);
    // What is on screen gets out all the same, as far as it is there.
    expect((await store.exportArchive(job)).size).toBeGreaterThan(500);
    vi.restoreAllMocks();
    expect((await proved(name)).job).toEqual(job);
    expect((await store.photo(job.id, photo?.id ?? ''))?.size).toBe(PHOTO_BYTES.length);
    expect(await kindOf(store.save({ ...job, title: 'later' }))).toBe('saved');
    store.close();
  });
});

describe('a clock set back', () => {
  it('changes no order: the log goes by its numbers, and says the time it was told', async () => {
    const name = `clock-${++counter}`;
    const job = await sampleJob();
    const today = await named(name, '2026-03-04T07:00:00Z');
    await today.save({ ...job, photos: [] });
    today.close();
    const yesterday = await named(name, '2019-01-01T00:00:00Z');
    await yesterday.open(job.id);
    await yesterday.save(job);
    const log = await yesterday.log(job.id);
    expect(log.map((e) => [e.sequence, e.at.slice(0, 4)])).toEqual([
      [0, '2026'],
      [1, '2019'],
    ]);
    expect(await chainFault(job, log)).toBeNull();
    yesterday.close();
  });
});

describe('two tabs', () => {
  it('never mix: of two saves from the same state one is refused and says so', async () => {
    const name = `tabs-${++counter}`;
    const [one, two] = [await named(name), await named(name)];
    const job = await sampleJob();
    await one.save(job);
    await two.open(job.id);
    await one.open(job.id);
    const told = await Promise.all([
      kindOf(one.save({ ...job, title: 'by one' })),
      kindOf(two.save({ ...job, title: 'by two' })),
    ]);
    expect([...told].sort()).toEqual(['changed elsewhere', 'saved']);
    expect((await proved(name)).entries).toBe(2);
    one.close();
    two.close();
  });
});

describe('the queue of photos', () => {
  it('outlives a reload, keeps its order and the names, and notices the same photo', async () => {
    const name = `queue-${++counter}`;
    const store = await named(name);
    const job = { ...(await sampleJob()), photos: [] };
    const bytes = (text: string): Blob => new Blob([text], { type: 'image/jpeg' });
    await store.enqueue(job, 2, bytes('second'), '../../b.jpg');
    await store.enqueue(job, 1, bytes('first'), '<b>a.jpg');
    expect(await store.enqueue(job, 3, bytes('first'), 'again.jpg')).toBeNull();
    store.close();
    const again = await named(name);
    const waiting = await again.waiting(job);
    expect(waiting).toHaveLength(2);
    const names = [];
    for (const id of waiting) names.push(((await again.photo(job.id, id)) as File).name);
    expect(names).toEqual(['<b>a.jpg', '../../b.jpg']);
    await again.dequeue(job.id, waiting[0] as string);
    expect(await again.waiting(job)).toHaveLength(1);
    again.close();
  });

  it('does not take in a photo that the job has read (twin: without it, it does)', async () => {
    const store = await named(`queue-${++counter}`);
    const job = await sampleJob();
    expect(await store.enqueue(job, 1, new Blob([PHOTO_BYTES]), 'x.jpg')).toBeNull();
    expect(await store.enqueue({ ...job, photos: [] }, 1, new Blob([PHOTO_BYTES]), 'x.jpg')).not.toBeNull();
    store.close();
  });
});
