import type { Job, Problem } from '../../flow';
import type { JobStore } from '../../record';
import { toProblem } from './to-problem';

export type SaveState =
  | { readonly kind: 'saving' }
  | { readonly kind: 'saved' }
  | { readonly kind: 'failed'; readonly problem: Problem };

export interface Saver {
  /** Hands over a photo's bytes; they are written before the next save and kept in memory until that worked. */
  addPhoto(job: string, photo: string, bytes: Blob): void;
  /** Writes the job; while one write is under way only the newest job waits. */
  save(job: Job): void;
  /** Bytes not yet written. */
  pendingPhoto(photo: string): Blob | null;
}

/**
 * Keeps the open job on the device. Says `saved` only after the store has read it back.
 * @param onPhoto called with each photo handed over, once it and a job that shows it are written
 */
export function createSaver(
  store: Pick<JobStore, 'keepPhoto' | 'save'>,
  onState: (state: SaveState) => void,
  onPhoto: (photo: string) => void = () => {},
): Saver {
  const photos = new Map<string, { readonly job: string; readonly bytes: Blob }>();
  /** Handed over, and in no job that was saved since. */
  const fresh = new Set<string>();
  let waiting: Job | null = null;
  let busy = false;

  async function write(job: Job): Promise<void> {
    for (const [photo, { job: owner, bytes }] of photos) {
      await store.keepPhoto(owner, photo, bytes);
      photos.delete(photo);
    }
    await store.save(job);
    for (const { id } of job.photos) if (!photos.has(id) && fresh.delete(id)) onPhoto(id);
  }

  async function drain(): Promise<void> {
    if (busy) return;
    busy = true;
    let state: SaveState = { kind: 'saving' };
    while (waiting) {
      const job: Job = waiting;
      waiting = null;
      onState({ kind: 'saving' });
      try {
        await write(job);
        state = { kind: 'saved' };
      } catch (error) {
        state = { kind: 'failed', problem: toProblem(error) };
      }
    }
    busy = false;
    onState(state);
  }

  return {
    addPhoto(job, photo, bytes) {
      photos.set(photo, { job, bytes });
      fresh.add(photo);
    },
    save(job) {
      waiting = job;
      void drain();
    },
    pendingPhoto: (photo) => photos.get(photo)?.bytes ?? null,
  };
}
