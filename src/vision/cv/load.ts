import { Problem } from '../../flow';
import type { Cv } from './facade';

let pending: Promise<{ cv: Cv }> | undefined;

/**
 * Loads OpenCV once; later calls share the promise. Resolves with a box, never with the module itself (see
 * `cv-raw.ts`). Rejects with 'engine unavailable' where wasm is refused.
 */
export function loadCv(): Promise<{ cv: Cv }> {
  pending ??= load().catch((cause: unknown) => {
    pending = undefined;
    throw cause instanceof Problem ? cause : new Problem('engine unavailable', undefined, cause);
  });
  return pending;
}

/** What Node calls its event names here; absent in a browser. */
interface HostProcess {
  listeners(event: string): ((...args: unknown[]) => void)[];
  removeListener(event: string, listener: (...args: unknown[]) => void): void;
}

/**
 * In Node, OpenCV's start-up code installs process-wide handlers that print its 8 MB source and exit at any
 * error of the program. Removes those that appeared while it loaded.
 */
async function withoutItsHandlers<T>(load: () => Promise<T>): Promise<T> {
  const host = (globalThis as { process?: Partial<HostProcess> }).process;
  if (!host?.listeners || !host.removeListener) return load();
  const events = ['uncaughtException', 'unhandledRejection'];
  const before = events.map((event) => new Set(host.listeners?.(event)));
  const result = await load();
  events.forEach((event, k) => {
    for (const listener of host.listeners?.(event) ?? [])
      if (!before[k]?.has(listener)) host.removeListener?.(event, listener);
  });
  return result;
}

async function load(): Promise<{ cv: Cv }> {
  const { box } = await withoutItsHandlers(() => import('./cv-raw'));
  const cv = box.cv as unknown as Cv & { then?: unknown };
  if (typeof cv.Mat !== 'function') {
    await new Promise<void>((resolve, reject) => {
      cv.onRuntimeInitialized = resolve;
      cv.onAbort = (reason) => reject(new Problem('engine unavailable', undefined, reason));
    });
  }
  // biome-ignore lint/suspicious/noThenProperty: taking the self-resolving `then` away is the point
  cv.then = undefined;
  return { cv };
}

/** OpenCV throws pointers; this gives them words. */
export function cvError(cv: Cv, thrown: unknown): Problem {
  const cause = typeof thrown === 'number' && cv.exceptionFromPtr ? new Error(cv.exceptionFromPtr(thrown).msg) : thrown;
  return new Problem('engine failed', undefined, cause);
}
