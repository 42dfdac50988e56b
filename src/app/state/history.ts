/** A value with the values before and after it, for undo and redo. */
export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  readonly future: readonly T[];
}

/** Steps kept. Jobs are small (no pixels), and nobody counts further back on site. */
export const HISTORY_LIMIT = 200;

export const begin = <T>(present: T): History<T> => ({ past: [], present, future: [] });

/** Goes on to `next`; what had been undone is given up. The same value again is no step. */
export function step<T>(history: History<T>, next: T): History<T> {
  if (Object.is(next, history.present)) return history;
  return { past: [...history.past, history.present].slice(-HISTORY_LIMIT), present: next, future: [] };
}

export function undo<T>(history: History<T>): History<T> {
  const previous = history.past.at(-1);
  if (previous === undefined) return history;
  return { past: history.past.slice(0, -1), present: previous, future: [history.present, ...history.future] };
}

export function redo<T>(history: History<T>): History<T> {
  const [next, ...rest] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.present], present: next, future: rest };
}
