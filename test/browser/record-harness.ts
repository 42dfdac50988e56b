import type { Job } from '../../src/flow';
import { openJobStore, storageSpace } from '../../src/record';

/** Longest time the page could not answer while `work` ran, milliseconds. */
async function longestFreeze(work: () => Promise<unknown>): Promise<number> {
  let longest = 0;
  let last = performance.now();
  const timer = setInterval(() => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
  }, 1);
  await work();
  await new Promise((done) => setTimeout(done, 5));
  clearInterval(timer);
  return longest;
}

const harness = {
  async save(job: Job, photoBytes: number): Promise<void> {
    const store = await openJobStore();
    for (const { id } of job.photos) {
      const bytes = new Uint8Array(photoBytes).map((_, k) => (k * 31 + id.length) & 0xff);
      await store.keepPhoto(job.id, id, new Blob([bytes], { type: 'image/jpeg' }));
    }
    await store.save(job);
    store.close();
  },
  async load(id: string) {
    const store = await openJobStore();
    const job = await store.open(id);
    const sizes: number[] = [];
    for (const photo of job?.photos ?? []) sizes.push((await store.photo(id, photo.id))?.size ?? -1);
    const log = await store.log(id);
    store.close();
    return { job, sizes, log: log.length, space: await storageSpace() };
  },
  /** Saves a job with one note changed; milliseconds taken and the longest freeze. */
  async touch(id: string) {
    const store = await openJobStore();
    const job = (await store.open(id)) as Job;
    const changed: Job = { ...job, photos: job.photos.map((p, k) => (k === 0 ? { ...p, note: 'seen' } : p)) };
    const start = performance.now();
    const freeze = await longestFreeze(() => store.save(changed));
    const ms = performance.now() - start;
    store.close();
    return { ms, freeze };
  },
  /**
   * Saves a job as fast as it goes, its title changed each time, from one opening of the store. Where another tab was
   * first, the job is opened anew and the change made to that. Says how each save ended.
   */
  async race(id: string, tab: string, saves: number): Promise<readonly string[]> {
    const store = await openJobStore();
    const ends: string[] = [];
    let job = (await store.open(id)) as Job;
    for (let n = 0; n < saves; n++) {
      job = { ...job, title: `${tab} ${n}` };
      const end = await store.save(job).then(
        () => 'saved',
        (error: { kind?: string }) => error.kind ?? String(error),
      );
      ends.push(end);
      if (end !== 'saved') job = (await store.open(id)) as Job;
    }
    store.close();
    return ends;
  },
  /** Exports a job, deletes it, imports the file; the job again. */
  async moveOut(id: string) {
    const store = await openJobStore();
    const file = await store.exportJson((await store.open(id)) as Job);
    await store.remove(id);
    const gone = await store.open(id);
    const back = await store.open(await store.importJson(file));
    const photo = await store.photo(id, back?.photos[0]?.id ?? '');
    store.close();
    return { gone, back, photoSize: photo?.size ?? -1, fileSize: file.size };
  },
};

Object.assign(globalThis, { record: harness });
export type RecordHarness = typeof harness;
