import {
  type ColorReference,
  type Conductor,
  type Findings,
  type NamedConductor,
  type Point,
  Problem,
  type SiteKnowledge,
} from '../flow';
import type { Glance } from './glance';
import { watchLife } from './life.browser';
import type { Answers, Call, CameraFrame, Picture, Reply, Request } from './protocol';
import type { HueCheck } from './stages';

/** A photo to be read. `id` tells photos apart so that the open one is not read twice. */
export interface PhotoSource {
  readonly id: string;
  readonly name: string;
  readonly bytes: Blob;
}

export interface InspectOptions {
  /** Aborting ends the worker at once; whatever was asked rejects with 'cancelled'. */
  readonly signal?: AbortSignal;
  readonly onStage?: (stage: string, share: number) => void;
  readonly knowledge?: SiteKnowledge;
}

/**
 * The reading engine behind its worker. Calls are answered one after the other. Every method rejects with a
 * `Problem`; after a failure or an abort the next call starts a fresh worker.
 */
export interface InspectClient {
  /** Starts the worker and its network before a photo is at hand. What goes wrong is told by the call that needs them. */
  warmUp(): void;
  inspect(photo: PhotoSource, options?: InspectOptions): Promise<Findings>;
  trace(photo: PhotoSource, at: Point, options?: InspectOptions): Promise<NamedConductor | null>;
  traceStroke(photo: PhotoSource, stroke: readonly Point[], options?: InspectOptions): Promise<NamedConductor | null>;
  /** Reads the colors of these conductors again under these references, in the order given. */
  reread(
    photo: PhotoSource,
    references: readonly ColorReference[],
    conductors: readonly Conductor[],
    options?: InspectOptions,
  ): Promise<readonly NamedConductor[]>;
  /** A closer look at the color of one conductor, and beside another one where `other` is given. */
  hue(
    photo: PhotoSource,
    references: readonly ColorReference[],
    conductor: Conductor,
    other?: Conductor,
    options?: InspectOptions,
  ): Promise<HueCheck | null>;
  /** The conductor straightened and enlarged. */
  ribbon(photo: PhotoSource, conductor: Conductor, options?: InspectOptions): Promise<Picture>;
  /**
   * A quick look at a frame of the live view, whose bitmaps are taken over and closed, whatever happens. Does not
   * disturb the open photo; a cancelled glance is not waited for, and ends nothing.
   */
  glance(frame: CameraFrame): Promise<Glance>;
  /** Ends the worker and gives its memory back. The client can be used again. */
  dispose(): void;
}

/** A worker that nothing was asked of for this long is ended: it holds a few hundred megabytes. */
const IDLE_MS = 5 * 60_000;

interface Pending {
  readonly resolve: (answer: Answers[keyof Answers]) => void;
  readonly reject: (problem: Problem) => void;
  readonly onStage: InspectOptions['onStage'];
}

/** `makeWorker` is for tests. */
export function createInspectClient(makeWorker: () => Worker = defaultWorker): InspectClient {
  let worker: Worker | undefined;
  let openPhoto: string | undefined;
  let nextId = 1;
  let watch: AbortController | undefined;
  let idle: ReturnType<typeof setTimeout> | undefined;
  let queue: Promise<unknown> = Promise.resolve();
  const pending = new Map<number, Pending>();

  const end = (problem: Problem): void => {
    worker?.terminate();
    worker = undefined;
    openPhoto = undefined;
    watch?.abort();
    watch = undefined;
    for (const one of pending.values()) one.reject(problem);
    pending.clear();
  };

  const start = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<Reply>) => {
      const message = event.data;
      if ('life' in message) {
        if (worker === made)
          watch = watchLife(message.life, () => {
            if (worker === made) end(new Problem('engine failed'));
          });
        return;
      }
      const one = pending.get(message.id);
      if (!one) return;
      if ('stage' in message) {
        one.onStage?.(message.stage, message.share);
        return;
      }
      pending.delete(message.id);
      if (!('problem' in message)) {
        one.resolve(message.answer);
        return;
      }
      const problem = new Problem(message.problem, message.values);
      one.reject(problem);
      // Memory used up, a graphics processor lost: what is left of this worker cannot be relied on.
      if (problem.kind === 'engine failed' || problem.kind === 'engine unavailable') end(problem);
    };
    made.onerror = (event) => end(new Problem('engine failed', undefined, event));
    made.onmessageerror = (event) => end(new Problem('engine failed', undefined, event));
    return made;
  };

  /** Sends one call; the answer's type follows from the call's. */
  async function ask<D extends Call['do']>(
    call: Extract<Call, { do: D }>,
    options: InspectOptions,
  ): Promise<Answers[D]> {
    const { signal, onStage } = options;
    if (signal?.aborted) throw new Problem('cancelled');
    clearTimeout(idle);
    worker ??= start();
    const running = worker;
    const id = nextId++;
    const cancel = (): void => end(new Problem('cancelled'));
    signal?.addEventListener('abort', cancel, { once: true });
    try {
      const answer = await new Promise<Answers[keyof Answers]>((resolve, reject) => {
        pending.set(id, { resolve, reject, onStage });
        const request: Request = { id, call };
        running.postMessage(request, transferred(call));
      });
      return answer as Answers[D];
    } finally {
      signal?.removeEventListener('abort', cancel);
      clearTimeout(idle);
      idle = setTimeout(() => end(new Problem('cancelled')), IDLE_MS);
    }
  }

  async function open(photo: PhotoSource, options: InspectOptions): Promise<Findings> {
    openPhoto = undefined;
    const bytes = await photo.bytes.arrayBuffer().catch((cause: unknown) => {
      throw new Problem('undecodable picture', undefined, cause);
    });
    const { knowledge } = options;
    const findings = await ask({ do: 'open', bytes, name: photo.name, ...(knowledge ? { knowledge } : {}) }, options);
    openPhoto = photo.id;
    return findings;
  }

  /** Calls wait for each other, so that no answer is about another photo. */
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = queue.then(work, work);
    queue = turn.catch(() => undefined);
    return turn;
  }

  const onPhoto = <T>(photo: PhotoSource, options: InspectOptions, work: () => Promise<T>): Promise<T> =>
    inTurn(async () => {
      if (openPhoto !== photo.id) await open(photo, options);
      return work();
    });

  return {
    warmUp: () => {
      // Out of turn: a photo need not wait for it, and stopping that photo ends it too.
      if (!worker) ask({ do: 'warm up' }, {}).catch(() => undefined);
    },
    inspect: (photo, options = {}) => inTurn(() => open(photo, options)),
    trace: (photo, at, options = {}) => onPhoto(photo, options, () => ask({ do: 'trace', at }, options)),
    traceStroke: (photo, stroke, options = {}) =>
      onPhoto(photo, options, () => ask({ do: 'traceStroke', stroke }, options)),
    reread: (photo, references, conductors, options = {}) =>
      onPhoto(photo, options, () => ask({ do: 'reread', references, conductors }, options)),
    hue: (photo, references, conductor, other, options = {}) =>
      onPhoto(photo, options, () => ask({ do: 'hue', references, conductor, ...(other ? { other } : {}) }, options)),
    ribbon: (photo, conductor, options = {}) =>
      onPhoto(photo, options, () => ask({ do: 'ribbon', conductor }, options)),
    glance: (frame) => inTurn(() => ask({ do: 'glance', frame }, {})),
    dispose: () => {
      clearTimeout(idle);
      end(new Problem('cancelled'));
    },
  };
}

function transferred(call: Call): Transferable[] {
  if (call.do === 'open') return [call.bytes];
  return call.do === 'glance' ? [call.frame.whole, call.frame.detail] : [];
}

function defaultWorker(): Worker {
  return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'inspect' });
}
