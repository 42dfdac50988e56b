import type { Job, JobPhoto } from '../../../src/flow';
import { chainFault, type JobStore, openJobStore } from '../../../src/record';
import { hashBytes } from '../../../src/record/hash';

/** Photos in the job at a time: the oldest leaves when one more comes. */
const WINDOW = 3;
const PHOTO_BYTES = 60_000;

/** Bytes that only the nth photo has. */
function bytesOf(n: number): Uint8Array<ArrayBuffer> {
  return new Uint8Array(PHOTO_BYTES).map((_, k) => (k * 31 + n * 7 + (k >> 8)) & 0xff);
}

/** What the device holds after a kill. */
export interface Found {
  /** Number of the last save that is there; 0: none. */
  readonly n: number;
  readonly entries: number;
  /** What is wrong with it, in words; empty when it is whole. */
  readonly faults: readonly string[];
}

let store: JobStore | null = null;
let job: Job | null = null;

const harness = {
  /** Opens the job as a user would after the kill, and proves all that is there. */
  async look(id: string): Promise<Found> {
    store = await openJobStore({ name: 'kills' });
    const faults: string[] = [];
    try {
      job = await store.open(id);
      const log = await store.log(id);
      if (!job) return { n: 0, entries: log.length, faults: log.length > 0 ? ['a log without its job'] : [] };
      if (await chainFault(job, log)) faults.push('the log does not fit the job');
      for (const photo of job.photos) {
        const bytes = await store.photo(id, photo.id);
        if (!bytes) faults.push(`the bytes of ${photo.id} are gone`);
        else if ((await hashBytes(new Uint8Array(await bytes.arrayBuffer()))) !== photo.findings.photo.sha256)
          faults.push(`the bytes of ${photo.id} are others`);
      }
      return { n: Number(job.title), entries: log.length, faults };
    } catch (error) {
      return { n: -1, entries: -1, faults: [String((error as { kind?: string }).kind ?? error)] };
    }
  },
  /** Saves the job again and again until the page is killed; tells each save that the store calls kept. */
  async saveOn(first: Job, sample: JobPhoto): Promise<void> {
    if (!store) throw new Error('look first');
    for (let n = Number(job?.title ?? 0) + 1; ; n++) {
      const bytes = bytesOf(n);
      const id = `p${n}`;
      const facts = { ...sample.findings.photo, sha256: await hashBytes(bytes) };
      const photo: JobPhoto = { ...sample, id, findings: { ...sample.findings, photo: facts } };
      const next: Job = { ...(job ?? first), title: String(n), photos: [...(job?.photos ?? []), photo].slice(-WINDOW) };
      console.log(`begun ${n}`);
      await store.keepPhoto(next.id, id, new Blob([bytes], { type: 'image/jpeg' }));
      await store.save(next);
      console.log(`kept ${n}`);
      job = next;
    }
  },
};

Object.assign(globalThis, { kills: harness });
export type KillsHarness = typeof harness;
