/** Every open window of the tool holds this lock, shared; how many hold it is how many are open. */
const NAME = 'hueproof.window';

export interface OpenWindows {
  /** Windows of the tool open now, this one included. */
  readonly count: () => Promise<number>;
  readonly close: () => void;
}

/** Counts the windows of the tool on this origin. */
export function openWindows(locks: LockManager): OpenWindows {
  let letGo = (): void => {};
  const untilClosed = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  const held = locks.request(NAME, { mode: 'shared' }, () => untilClosed);
  // A refused lock (an opaque origin) leaves this window uncounted, and the count below then rejects as well.
  held.catch(() => {});
  return {
    count: async () => ((await locks.query()).held ?? []).filter(({ name }) => name === NAME).length,
    close: letGo,
  };
}
