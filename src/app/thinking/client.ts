import { type MeterPlan, Problem } from '../../flow';
import { watchLife } from '../../inspect/life.browser';
import type { Conclusion, ThinkRequest } from './think';
import type { ThinkCall, ThinkReply } from './worker';

/** Inference off the page's thread. Rejects with the problems 'engine failed' and 'cancelled'. */
export interface Thinker {
  readonly conclude: (request: ThinkRequest) => Promise<Conclusion>;
  /** The checks still to make in a first good order, quickly. */
  readonly first: (request: ThinkRequest) => Promise<MeterPlan>;
  /** In the order of least expected work. Planning is cancelled by the next conclusion, which makes it old anyway. */
  readonly plan: (request: ThinkRequest) => Promise<MeterPlan>;
}

interface Waiting {
  readonly about: ThinkCall['about'];
  readonly since: number;
  readonly resolve: (answer: Conclusion | MeterPlan) => void;
  readonly reject: (problem: Problem) => void;
}

/**
 * Planning that has taken longer than this, ms, is ended with its worker when a conclusion is asked for; a shorter one
 * is waited for, because a fresh worker would have to load and learn again. Assumed from loading times of a second.
 */
const PATIENCE = 1000;

/** Thinks in a worker of its own, so that a touch is answered while a large mixture is weighed. */
export function createThinker(
  makeWorker: () => Worker = defaultWorker,
  now: () => number = () => performance.now(),
): Thinker {
  let worker: Worker | null = null;
  let watch: AbortController | null = null;
  let nextId = 1;
  const waiting = new Map<number, Waiting>();

  const end = (problem: Problem): void => {
    worker?.terminate();
    worker = null;
    watch?.abort();
    watch = null;
    for (const one of waiting.values()) one.reject(problem);
    waiting.clear();
  };
  const start = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<ThinkReply>) => {
      const reply = event.data;
      if ('life' in reply) {
        if (worker === made) watch = watchLife(reply.life, () => worker === made && broken('ended by the system'));
        return;
      }
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
      waiting.set(call.id, { about, since: now(), resolve, reject });
      worker.postMessage(call);
    });
  /** Nobody waits for an old plan any more. */
  const dropPlans = (): void => {
    const plans = [...waiting].filter(([, one]) => one.about !== 'conclusion');
    const stuck = plans.length === waiting.size && plans.some(([, one]) => now() - one.since > PATIENCE);
    if (stuck) {
      end(new Problem('cancelled'));
      return;
    }
    for (const [id, one] of plans) {
      waiting.delete(id);
      one.reject(new Problem('cancelled'));
    }
  };

  return {
    conclude: async (request) => {
      dropPlans();
      return (await ask('conclusion', request)) as Conclusion;
    },
    first: async (request) => (await ask('first plan', request)) as MeterPlan,
    plan: async (request) => (await ask('plan', request)) as MeterPlan,
  };
}

const defaultWorker = (): Worker =>
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'think' });
