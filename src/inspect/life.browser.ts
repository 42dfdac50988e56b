/**
 * Workers that the system ends for want of memory say nothing: no event tells of it. But they let go of their locks
 * (Web Locks API), so a worker holds one as long as it lives, and whoever waits for its answers asks for the same.
 */

/** In a worker: takes a lock for good and then tells its name. Nothing where there are no locks. */
export function holdLife(tell: (life: string) => void): void {
  if (!('locks' in navigator)) return;
  const life = crypto.randomUUID();
  void navigator.locks.request(life, () => {
    tell(life);
    return new Promise(() => {});
  });
}

/** On the page: calls `gone` once the holder of the lock is no more, unless it was stopped before. */
export function watchLife(life: string, gone: () => void): AbortController {
  const watch = new AbortController();
  navigator.locks.request(life, { signal: watch.signal }, gone).catch(() => undefined);
  return watch;
}
