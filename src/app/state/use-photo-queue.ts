import { useCallback, useEffect, useRef, useState } from 'react';
import { EMPTY_TURNOVER, type Job, Problem } from '../../flow';
import { useServices } from '../services/context';
import { photoTag } from '../services/photo-tag';
import { newJobPhoto } from './new-job';
import { tagged } from './place-photo';
import { siteOfNewPhoto } from './site';
import { toProblem } from './to-problem';
import { useOpenJob } from './use-job';

export interface QueueState {
  /** Ids of photos that wait. */
  readonly waiting: readonly string[];
  readonly running: boolean;
  /** Files being taken in. */
  readonly taking: { readonly done: number; readonly of: number } | null;
  /** Read since the screen was opened. */
  readonly read: number;
  readonly twice: readonly string[];
  readonly failed: readonly { readonly id: string; readonly name: string; readonly problem: Problem }[];
  readonly problem: Problem | null;
}

export interface PhotoQueue extends QueueState {
  readonly take: (files: readonly File[]) => void;
  readonly run: () => void;
  readonly pause: () => void;
  readonly retry: () => void;
  readonly discard: (id: string) => void;
}

const START: QueueState = { waiting: [], running: false, taking: null, read: 0, twice: [], failed: [], problem: null };

/**
 * Photos taken in by the hundred. Their bytes are kept on the device before any is read, so that the queue goes on
 * after a reload; one is read at a time; one that cannot be read waits for a retry and stops no other.
 */
export function usePhotoQueue(job: Job): PhotoQueue {
  const { store, engine, now } = useServices();
  const { edit } = useOpenJob();
  const [state, setState] = useState(START);
  const latest = useRef(job);
  latest.current = job;
  const stop = useRef<AbortController | null>(null);
  const patch = useCallback((change: (s: QueueState) => Partial<QueueState>): void => {
    setState((s) => ({ ...s, ...change(s) }));
  }, []);
  const fail = useCallback((error: unknown): void => patch(() => ({ problem: toProblem(error) })), [patch]);

  useEffect(() => {
    store.waiting(latest.current).then((waiting) => patch(() => ({ waiting })), fail);
    return () => stop.current?.abort();
  }, [store, patch, fail]);

  const take = async (files: readonly File[]): Promise<void> => {
    // One after the other: a hundred files at once would stand in memory together.
    const first = Date.now();
    for (const [k, file] of files.entries()) {
      patch(() => ({ taking: { done: k, of: files.length } }));
      const id = await store.enqueue(latest.current, first + k, file, file.name);
      patch((s) => (id === null ? { twice: [...s.twice, file.name] } : { waiting: [...s.waiting, id] }));
    }
    patch(() => ({ taking: null }));
  };

  const readOne = async (id: string, signal: AbortSignal): Promise<void> => {
    const bytes = await store.photo(latest.current.id, id);
    if (!bytes) throw new Problem('empty file');
    const name = bytes instanceof File ? bytes.name : id;
    const { site } = latest.current;
    const findings = await engine.inspect({ id, name, bytes }, { signal, knowledge: siteOfNewPhoto(site) });
    const photo = newJobPhoto(id, findings, latest.current.photos.length);
    // A photo that the browser cannot open as a picture was read by the engine all the same.
    const tag = await photoTag(bytes).catch(() => null);
    if (!tag) return edit({ type: 'add photo', photo });
    const so = latest.current.turnover ?? EMPTY_TURNOVER;
    const place = tagged(id, tag, { by: latest.current.by, at: now() });
    edit({ type: 'add photo', photo, turnover: { ...so, places: [...so.places, place] } });
  };

  const run = async (ids: readonly string[]): Promise<void> => {
    const control = new AbortController();
    stop.current = control;
    patch(() => ({ running: true, problem: null }));
    for (const id of ids) {
      try {
        await readOne(id, control.signal);
        patch((s) => ({ read: s.read + 1, waiting: s.waiting.filter((each) => each !== id) }));
      } catch (error) {
        const problem = toProblem(error);
        if (control.signal.aborted) break;
        const name = await nameOf(id);
        patch((s) => ({
          failed: [...s.failed.filter((f) => f.id !== id), { id, name, problem }],
          waiting: s.waiting.filter((each) => each !== id),
        }));
      }
    }
    if (stop.current === control) patch(() => ({ running: false }));
  };

  const nameOf = async (id: string): Promise<string> => {
    const bytes = await store.photo(latest.current.id, id).catch(() => null);
    return bytes instanceof File ? bytes.name : id;
  };

  return {
    ...state,
    take: (files) => {
      take(files).catch((error: unknown) => {
        patch(() => ({ taking: null }));
        fail(error);
      });
    },
    run: () => void run(state.waiting),
    pause: () => {
      stop.current?.abort();
      patch(() => ({ running: false }));
    },
    retry: () => {
      const again = state.failed.map((f) => f.id);
      patch((s) => ({ failed: [], waiting: [...s.waiting, ...again] }));
      void run([...state.waiting, ...again]);
    },
    discard: (id) => {
      store.dequeue(job.id, id).then(() => patch((s) => ({ failed: s.failed.filter((f) => f.id !== id) })), fail);
    },
  };
}
