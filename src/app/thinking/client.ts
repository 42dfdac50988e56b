import { type MeterPlan, Problem } from '../../flow';
import type { Conclusion, ThinkRequest } from './think';
import type { ThinkCall, ThinkReply } from './worker';

/** Inference off the page's thread. Rejects with the problems 'engine failed' and 'cancelled'. */
export interface Thinker {
  readonly conclude: (request: ThinkRequest) => Promise<Conclusion>;
  /** Planning that is under way is cancelled by the next conclusion, which would make it old anyway. */
  readonly plan: (request: ThinkRequest) => Promise<MeterPlan>;
}

interface Waiting {
  readonly about: ThinkCall['about'];
  readonly resolve: (answer: Conclusion | MeterPlan) => void;
  readonly reject: (problem: Problem) => void;
}

/** Thinks in a worker of its own, so that a touch is answered while a large mixture is weighed. */
export function createThinker(makeWorker: () => Worker = defaultWorker): Thinker {
  let worker: Worker | null = null;
  let nextId = 1;
  const waiting = new Map<number, Waiting>();

  const end = (problem: Problem): void => {
    worker?.terminate();
    worker = null;
    for (const one of waiting.values()) one.reject(problem);
    waiting.clear();
  };
  const start = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<ThinkReply>) => {
      const reply = event.data;
      const one = waiting.get(reply.id);
      waiting.delete(reply.id);
      if ('answer' in reply) one?.resolve(reply.answer);
      else one?.reject(new Problem('engine failed', undefined, reply.fault));
    };
    const broken = (cause: unknown): void => end(new Problem('engine failed', undefined, cause));
    made.onerror = broken;
    made.onmessageerror = broken;
    return made;
  };
  const ask = (about: ThinkCall['about'], request: ThinkRequest): Promise<Conclusion | MeterPlan> =>
    new Promise((resolve, reject) => {
      worker ??= start();
      const call: ThinkCall = { id: nextId++, about, request };
      waiting.set(call.id, { about, resolve, reject });
      worker.postMessage(call);
    });
  const isPlanning = (): boolean => waiting.size > 0 && [...waiting.values()].every((one) => one.about === 'plan');

  return {
    conclude: async (request) => {
      if (isPlanning()) end(new Problem('cancelled'));
      return (await ask('conclusion', request)) as Conclusion;
    },
    plan: async (request) => (await ask('plan', request)) as MeterPlan,
  };
}

const defaultWorker = (): Worker =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'think' });
