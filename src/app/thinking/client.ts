import { Problem } from '../../flow';
import type { ThinkRequest, Thoughts } from './think';
import type { ThinkCall, ThinkReply } from './worker';

export type Think = (request: ThinkRequest) => Promise<Thoughts>;

/**
 * Thinks in a worker of its own, so that a touch is answered while a large mixture is weighed. Calls are answered in
 * their order. Rejects with the problem 'engine failed'; the next call then starts a fresh worker.
 */
export function createThinker(makeWorker: () => Worker = defaultWorker): Think {
  let worker: Worker | null = null;
  let nextId = 1;
  const waiting = new Map<number, { resolve: (thoughts: Thoughts) => void; reject: (problem: Problem) => void }>();

  const fail = (cause: unknown): void => {
    worker?.terminate();
    worker = null;
    for (const one of waiting.values()) one.reject(new Problem('engine failed', undefined, cause));
    waiting.clear();
  };
  const start = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<ThinkReply>) => {
      const { id, thoughts, fault } = event.data;
      const one = waiting.get(id);
      waiting.delete(id);
      if (thoughts) one?.resolve(thoughts);
      else one?.reject(new Problem('engine failed', undefined, fault));
    };
    made.onerror = fail;
    made.onmessageerror = fail;
    return made;
  };

  return (request) =>
    new Promise((resolve, reject) => {
      worker ??= start();
      const call: ThinkCall = { id: nextId++, request };
      waiting.set(call.id, { resolve, reject });
      worker.postMessage(call);
    });
}

const defaultWorker = (): Worker =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'think' });
