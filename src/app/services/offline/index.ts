import { keepOffline } from './keep-offline';
import type { Offline, OfflineNews } from './types';

export type { Offline, OfflineNews, StoredState } from './types';

const NOWHERE: OfflineNews = { stored: 'unavailable', newer: false };

/** Nothing is stored: a development server, an insecure address, or a browser without service workers. */
const UNAVAILABLE: Offline = {
  news: () => NOWHERE,
  subscribe: () => () => {},
  switchToNewer: () => Promise.resolve(false),
};

/** The tool's copy on this device, kept by the service worker of a built page. */
export function browserOffline(): Offline {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator) || !('locks' in navigator)) return UNAVAILABLE;
  return keepOffline(`${import.meta.env.BASE_URL}sw.js`);
}
