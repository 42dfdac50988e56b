import { Problem } from '../../flow';

/** Any failure as a problem the user can be told about; the unexpected counts as a fault of this program. */
export function toProblem(error: unknown): Problem {
  if (error instanceof Problem) return error;
  if (error instanceof DOMException && error.name === 'AbortError') return new Problem('cancelled', undefined, error);
  return new Problem('engine failed', undefined, error);
}
