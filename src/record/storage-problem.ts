import { Problem } from '../flow';

/** Any failure of the browser's storage as a problem the user can act on. */
export function storageProblem(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  return new Problem(name === 'QuotaExceededError' ? 'storage full' : 'storage unavailable', undefined, error);
}

/** Runs storage work; rejects with a `Problem` only. */
export async function guarded<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw storageProblem(error);
  }
}
