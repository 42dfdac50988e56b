import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Job } from '../../src/flow';
import { type JobStore, openJobStore } from '../../src/record';
import { PHOTO_BYTES, reading, sampleJob } from './sample-job';

let name = '';
let counter = 0;
let store: JobStore;
const open = (): Promise<JobStore> =>
  openJobStore({ name, now: () => '2026-03-04T07:00:00Z', newId: () => `copy-${++counter}` });

beforeEach(async () => {
  name = `test-${++counter}`;
  store = await open();
});
afterEach(() => {
  store.close();
  vi.restoreAllMocks();
});

const kind = async (run: Promise<unknown>): Promise<string> =>
  run.then(
    () => 'no problem',
    (error: { kind?: string }) => error.kind ?? String(error),
  );

const photoBlob = (): Blob => new Blob([PHOTO_BYTES], { type: 'image/jpeg' });

type Db = Awaited<ReturnType<typeof openDB>>;

async function raw<T>(work: (db: Db) => Promise<T>): Promise<T> {
  const db = await openDB(name);
  try {
    return await work(db);
  } finally {
    db.close();
  }
}

describe('store on this device', () => {
  it('keeps a job over a reload, with its photo to the byte', async () => {
    const job = await sampleJob();
    await store.keepPhoto(job.id, 'p1', photoBlob());
    await store.save(job);
    store.close();
    store = await open();
    expect(await store.open(job.id)).toEqual(job);
    const photo = await store.photo(job.id, 'p1');
    expect(new Uint8Array(await (photo as Blob).arrayBuffer())).toEqual(PHOTO_BYTES);
    expect(photo?.type).toBe('image/jpeg');
    expect(await store.list()).toEqual([
      {
        id: 'job-1',
        title: 'Invented gutter',
        by: 'Tech One',
        createdAt: job.createdAt,
        photos: 1,
        demo: true,
        next: null,
      },
    ]);
  });

  it('answers null for what is not here', async () => {
    expect(await store.open('none')).toBeNull();
    expect(await store.photo('none', 'p1')).toBeNull();
    expect(await store.log('none')).toEqual([]);
  });

  it('adds a log line for each save that changed something and none otherwise', async () => {
    const job = await sampleJob();
    await store.save(job);
    await store.save(structuredClone(job));
    await store.save({ ...job, title: 'Other' });
    expect((await store.log(job.id)).map((e) => [e.sequence, e.changes[0]?.code])).toEqual([
      [0, 'record.change.created'],
      [1, 'record.change.title'],
    ]);
  });

  it('keeps order when saves are not awaited', async () => {
    const job = await sampleJob();
    const titles = Array.from({ length: 12 }, (_, k) => `title ${k}`);
    await Promise.all(titles.map((title) => store.save({ ...job, title })));
    expect((await store.open(job.id))?.title).toBe('title 11');
    expect(await store.log(job.id)).toHaveLength(12);
  });

  it('reports no save that did not read back the same', async () => {
    const job = await sampleJob();
    await store.save(job);
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, value, key) {
      // A device that loses the last change of what it was given.
      return put.call(this, this.name === 'jobs' ? { ...value, title: job.title } : value, key);
    });
    expect(await kind(store.save({ ...job, title: 'Other' }))).toBe('save not verified');
  });

  it('writes only the photos that changed, reads those back, and drops the ones removed', async () => {
    const job = await sampleJob();
    const photo = job.photos[0] as Job['photos'][number];
    const two: Job = { ...job, photos: [photo, { ...photo, id: 'p2' }] };
    await store.save(two);
    const put = vi.spyOn(IDBObjectStore.prototype, 'put');
    const written = (): string[] =>
      put.mock.calls.map(([value]) => (value as { photo?: { id: string } }).photo?.id ?? 'job').sort();
    await store.save({ ...two, title: 'Other' });
    expect(written()).toEqual(['job']);
    put.mockClear();
    const noted: Job = { ...two, photos: [photo, { ...photo, id: 'p2', note: 'seen' }] };
    await store.save(noted);
    expect(written()).toEqual(['job', 'p2']);
    await store.save(job);
    expect(await store.open(job.id)).toEqual(job);
    expect(await raw((db) => db.count('parts'))).toBe(1);
  });

  it('reports no save of a photo part that did not read back the same', async () => {
    const get = IDBObjectStore.prototype.get;
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (this: IDBObjectStore, key) {
      return get.call(this, this.name === 'parts' ? 'another key' : key);
    });
    expect(await kind(store.save(await sampleJob()))).toBe('save not verified');
  });

  it('says when the device is full', async () => {
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    expect(await kind(store.save(await sampleJob()))).toBe('storage full');
    expect(await kind(store.keepPhoto('job-1', 'p1', photoBlob()))).toBe('storage full');
  });

  it('says when there is no storage', async () => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('no', 'SecurityError');
    });
    expect(await kind(openJobStore({ name: 'never' }))).toBe('storage unavailable');
  });

  it('does not open a job that was changed behind its back', async () => {
    const job = await sampleJob();
    const photo = job.photos[0] as Job['photos'][number];
    const tamper = {
      'a reading': (db: Db) =>
        db.put('parts', { job: job.id, id: 'p1', photo: { ...photo, readings: [reading('r1', 0)] } }),
      'the title': async (db: Db) => db.put('jobs', { ...(await db.get('jobs', job.id)), title: 'Other' }),
      'a photo dropped': (db: Db) => db.delete('parts', [job.id, 'p1']),
      'the log cut': (db: Db) => db.delete('log', [job.id, 0]),
    };
    for (const [what, work] of Object.entries(tamper)) {
      await store.remove(job.id);
      await store.save(job);
      expect(await kind(store.open(job.id)), what).toBe('no problem');
      await raw(async (db) => work(db));
      expect(await kind(store.open(job.id)), what).toBe('record changed');
    }
  });

  it('lets no second tab overwrite unseen', async () => {
    const job = await sampleJob();
    await store.save(job);
    const other = await open();
    await other.open(job.id);
    await other.save({ ...job, title: 'from the other tab' });
    expect(await kind(store.save({ ...job, title: 'from here' }))).toBe('changed elsewhere');
    await store.open(job.id);
    expect(await kind(store.save({ ...job, title: 'from here' }))).toBe('no problem');
    other.close();
  });

  it('deletes a job with its log and photos and leaves the others', async () => {
    for (const id of ['a', 'ab', 'b']) {
      await store.keepPhoto(id, 'p1', photoBlob());
      await store.save(await sampleJob(id));
    }
    await store.remove('a');
    expect(await store.photo('a', 'p1')).toBeNull();
    expect(await store.log('a')).toEqual([]);
    expect((await store.list()).map((j) => j.id).sort()).toEqual(['ab', 'b']);
    expect(await store.log('ab')).toHaveLength(1);
    expect(await store.photo('ab', 'p1')).not.toBeNull();
  });
});

describe('moving a job between devices', () => {
  const elsewhere = (): Promise<JobStore> => openJobStore({ name: `${name}-other`, newId: () => `copy-${++counter}` });

  it('exports what is on screen and imports it whole elsewhere', async () => {
    const job = await sampleJob();
    await store.keepPhoto(job.id, 'p1', photoBlob());
    await store.save(job);
    const onScreen = { ...job, title: 'not saved yet' };
    const file = await store.exportJson(onScreen);
    const other = await elsewhere();
    expect(await other.importJson(file)).toBe(job.id);
    expect(await other.open(job.id)).toEqual(JSON.parse(JSON.stringify(onScreen)));
    expect(await other.log(job.id)).toHaveLength(2);
    expect((await other.photo(job.id, 'p1'))?.size).toBe(PHOTO_BYTES.length);
    other.close();
  });

  it('takes a later state, ignores an earlier one, and copies one that went another way', async () => {
    const job = await sampleJob();
    await store.save(job);
    const early = await store.exportJson(job);
    const later = { ...job, title: 'later' };
    await store.save(later);
    const late = await store.exportJson(later);

    const other = await elsewhere();
    await other.importJson(early);
    expect(await other.importJson(late)).toBe(job.id);
    expect((await other.open(job.id))?.title).toBe('later');
    expect(await other.importJson(early)).toBe(job.id);
    expect((await other.open(job.id))?.title).toBe('later');

    const forked = await elsewhere();
    await forked.open(job.id);
    await forked.save({ ...later, title: 'another way' });
    const copy = await forked.importJson(await store.exportJson({ ...later, title: 'third way' }));
    expect(copy).toMatch(/^copy-/);
    expect((await forked.open(copy))?.title).toBe('third way');
    expect((await forked.open(job.id))?.title).toBe('another way');
    other.close();
    forked.close();
  });

  it('changes nothing when the file is not whole', async () => {
    const job = await sampleJob();
    await store.save(job);
    const text = await (await store.exportJson(job)).text();
    const other = await elsewhere();
    expect(await kind(other.importJson(new Blob([text.replace('277.1', '277.2')])))).toBe('record changed');
    expect(await other.list()).toEqual([]);
    other.close();
  });
});
