import 'fake-indexeddb/auto';
import { forceCloseDatabase } from 'fake-indexeddb';
import { afterEach, expect, it, vi } from 'vitest';
import { importJob, openJobStore } from '../../src/record';
import { sampleJob } from './sample-job';

afterEach(() => vi.restoreAllMocks());

/** Opens a store and gives what throws its storage away, as a browser does: the connection is closed under the page. */
async function losable(name: string) {
  const opened: IDBDatabase[] = [];
  const real = IDBFactory.prototype.open;
  vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(function (this: IDBFactory, ...args) {
    const request = real.apply(this, args);
    request.addEventListener('success', () => opened.push(request.result));
    return request;
  });
  const store = await openJobStore({ name });
  const lose = async (): Promise<void> => {
    const db = opened.at(-1)!;
    const gone = indexedDB.deleteDatabase(name);
    forceCloseDatabase(db as unknown as Parameters<typeof forceCloseDatabase>[0]);
    await new Promise((resolve) => gone.addEventListener('success', resolve));
  };
  return { store, lose, opened };
}

it('a job gets out as a file when the storage behind it has gone, and that file imports', async () => {
  const store = await openJobStore({ name: 'evicted' });
  const job = await sampleJob();
  await store.save(job);
  store.close();
  const changed = { ...job, title: 'Written after the loss' };
  await expect(store.save(changed)).rejects.toMatchObject({ kind: 'storage unavailable' });
  const text = await (await store.exportJson(changed)).text();
  const { job: back, log } = await importJob(text);
  expect(back.title).toBe('Written after the loss');
  expect(log).toHaveLength(1);
});

it('so does it as an archive, which imports on another device', async () => {
  const store = await openJobStore({ name: 'evicted archive' });
  const job = await sampleJob();
  await store.save(job);
  store.close();
  const archive = await store.exportArchive({ ...job, title: 'Written after the loss' });
  const other = await openJobStore({ name: 'another device' });
  const back = await other.open(await other.importJson(archive));
  expect(back?.title).toBe('Written after the loss');
  expect(back?.photos.map((p) => p.id)).toEqual(job.photos.map((p) => p.id));
  other.close();
});

it('the next save begins anew in the empty storage, and holds', async () => {
  const { store, lose, opened } = await losable('evicted and back');
  const job = await sampleJob();
  await store.save(job);
  await store.save({ ...job, title: 'Before the loss' });
  await lose();
  const changed = { ...job, title: 'Written after the loss' };
  await store.save(changed);
  expect(opened).toHaveLength(2);
  expect((await store.open(job.id))?.title).toBe('Written after the loss');
  // What was thrown away is gone, and the log does not claim otherwise.
  expect(await store.log(job.id)).toHaveLength(1);
  store.close();
});

it('twin: storage that the program itself closed stays closed', async () => {
  const { store, opened } = await losable('closed');
  const job = await sampleJob();
  store.close();
  await expect(store.save(job)).rejects.toMatchObject({ kind: 'storage unavailable' });
  expect(opened).toHaveLength(1);
});
