/** Every open window of the tool holds this lock, shared, until it is gone; how many hold it is how many are open. */
const NAME = 'hueproof.window';

export interface OpenWindows {
  /** Windows of the tool open now, this one included. */
  readonly count: () => Promise<number>;
}

/** Counts the windows of the tool on this origin. The browser lets go of a window's lock when it closes. */
export function openWindows(locks: LockManager): OpenWindows {
  const held = locks.request(NAME, { mode: 'shared' }, () => new Promise<never>(() => {}));
  // A refused lock (an opaque origin) leaves this window uncounted, and the count below then rejects as well.
  held.catch(() => {});
  return { count: async () => ((await locks.query()).held ?? []).filter(({ name }) => name === NAME).length };
}
