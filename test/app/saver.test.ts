import { describe, expect, test, vi } from 'vitest';
import { createSaver, type SaveState } from '../../src/app/state/saver';
import { type Job, Problem } from '../../src/flow';
import { job, photo } from './fixtures/findings';

/** A store whose writes end when the test says so. */
function slowStore() {
  const written: string[] = [];
  const waiting: { readonly done: () => void; readonly fail: (problem: Problem) => void }[] = [];
  return {
    written,
    waiting,
    keepPhoto: async (_job: string, photo: string) => {
      written.push(photo);
    },
    save: (kept: Job) =>
      new Promise<void>((done, fail) => {
        waiting.push({
          done: () => {
            written.push(kept.title);
            done();
          },
          fail,
        });
      }),
  };
}

const titled = (title: string): Job => ({ ...job(), title });

describe('saver', () => {
  test('says saved only after the store has', async () => {
    const states: SaveState['kind'][] = [];
    const store = slowStore();
    const saver = createSaver(store, (s) => states.push(s.kind));
    saver.save(titled('one'));
    await vi.waitFor(() => expect(store.waiting).toHaveLength(1));
    expect(states).toEqual(['saving']);
    store.waiting[0]!.done();
    await vi.waitFor(() => expect(states).toEqual(['saving', 'saved']));
  });

  test('while one write is under way only the newest waits', async () => {
    const store = slowStore();
    const saver = createSaver(store, () => {});
    for (const title of ['one', 'two', 'three']) saver.save(titled(title));
    await vi.waitFor(() => expect(store.waiting).toHaveLength(1));
    store.waiting[0]!.done();
    await vi.waitFor(() => expect(store.waiting).toHaveLength(2));
    store.waiting[1]!.done();
    await vi.waitFor(() => expect(store.written).toEqual(['one', 'three']));
  });

  test('photos are written first and kept in memory until they are', async () => {
    const store = slowStore();
    const saver = createSaver(store, () => {});
    const bytes = new Blob(['x']);
    saver.addPhoto('job', 'p', bytes);
    expect(saver.pendingPhoto('p')).toBe(bytes);
    saver.save(titled('one'));
    await vi.waitFor(() => expect(store.waiting).toHaveLength(1));
    expect(store.written).toEqual(['p']);
    expect(saver.pendingPhoto('p')).toBeNull();
  });

  test('a failure is told with its problem, and the photo is not lost', async () => {
    let last: SaveState = { kind: 'saved' };
    const full = new Problem('storage full');
    const store = { keepPhoto: async () => Promise.reject(full), save: async () => {} };
    const saver = createSaver(store, (s) => {
      last = s;
    });
    saver.addPhoto('job', 'p', new Blob(['x']));
    saver.save(titled('one'));
    await vi.waitFor(() => expect(last).toEqual({ kind: 'failed', problem: full }));
    expect(saver.pendingPhoto('p')).not.toBeNull();
  });

  test('a photo counts as kept once a job that shows it is saved, and not before', async () => {
    const kept: string[] = [];
    const store = slowStore();
    const saver = createSaver(
      store,
      () => {},
      (one) => kept.push(one),
    );
    const id = 'p';
    const shown = { ...titled('shows it'), photos: [photo(id, [])] };
    saver.addPhoto(shown.id, id, new Blob(['x']));
    saver.save({ ...titled('older'), photos: [] });
    await vi.waitFor(() => expect(store.waiting).toHaveLength(1));
    store.waiting[0]!.done();
    saver.save(shown);
    await vi.waitFor(() => expect(store.waiting).toHaveLength(2));
    expect(kept).toEqual([]);
    store.waiting[1]!.fail(new Problem('storage full'));
    saver.save(shown);
    await vi.waitFor(() => expect(store.waiting).toHaveLength(3));
    expect(kept).toEqual([]);
    store.waiting[2]!.done();
    await vi.waitFor(() => expect(kept).toEqual([id]));
  });
});
