import { openWindows } from './open-windows';
import type { Offline, OfflineNews } from './types';

/** Wait before storing is begun again after it broke off, milliseconds; twice as long each time. Assumed. */
const FIRST_WAIT = 10_000;
const LONGEST_WAIT = 10 * 60_000;

/**
 * Has the service worker store the tool and follows how far it is. Browsers with service workers and locks only.
 *
 * @param script URL of the service worker; its folder is what it keeps.
 */
export function keepOffline(script: string): Offline {
  const container = navigator.serviceWorker;
  const windows = openWindows(navigator.locks);
  const listeners = new Set<() => void>();
  let news: OfflineNews = { stored: 'storing', newer: false };
  let registration: ServiceWorkerRegistration | undefined;
  let wait = FIRST_WAIT;
  let again: ReturnType<typeof setTimeout> | undefined;

  function tell(change: Partial<OfflineNews>): void {
    news = { ...news, ...change };
    for (const listener of listeners) listener();
    if (news.stored === 'failed' && again === undefined) again = setTimeout(tryAgain, wait);
  }

  /** A worker that the browser ended in mid-download, or a server that broke off, sends no event when it is well again. */
  function tryAgain(): void {
    again = undefined;
    wait = Math.min(2 * wait, LONGEST_WAIT);
    if (news.stored === 'failed') begin();
  }

  function look(): void {
    if (!registration) return;
    const { active, waiting, installing } = registration;
    // A worker is activated only after every file of its list was stored.
    if (active) tell({ stored: 'ready', newer: waiting !== null });
    else tell({ stored: waiting || installing ? 'storing' : 'failed' });
  }

  function watch(worker: ServiceWorker | null): void {
    worker?.addEventListener('statechange', look);
  }

  async function register(): Promise<void> {
    try {
      const found = await container.register(script);
      if (registration !== found) {
        registration = found;
        found.addEventListener('updatefound', () => watch(found.installing));
        for (const worker of [found.installing, found.waiting, found.active]) watch(worker);
      }
      look();
    } catch {
      // No network on the very first visit, or the browser forbids storing; what is said on the screen is the same.
      if (news.stored !== 'ready') tell({ stored: 'failed' });
    }
  }

  const begin = (): void => void register();
  // After the page has loaded: storing 13 MB must not hold up the first screen.
  if (document.readyState === 'complete') begin();
  else window.addEventListener('load', begin, { once: true });
  window.addEventListener('online', begin);

  return {
    news: () => news,
    subscribe: (onChange) => {
      listeners.add(onChange);
      return () => listeners.delete(onChange);
    },
    switchToNewer: async () => {
      const waiting = registration?.waiting;
      if (!waiting || (await windows.count()) > 1) return false;
      container.addEventListener('controllerchange', () => location.reload(), { once: true });
      waiting.postMessage({ type: 'SKIP_WAITING' });
      return true;
    },
  };
}
