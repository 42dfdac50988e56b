/**
 * How far the tool itself is kept on the device. `storing`: not everything is there yet; `ready`: it opens and reads
 * without a network; `failed`: storing broke off and is tried again by itself; `unavailable`: this
 * browser or this address cannot keep it.
 */
export type StoredState = 'storing' | 'ready' | 'failed' | 'unavailable';

export interface OfflineNews {
  readonly stored: StoredState;
  /** A newer version is stored beside the running one and waits to be switched to. */
  readonly newer: boolean;
}

/** The tool's own copy on the device. Nothing here ever reloads a page that was not asked to. */
export interface Offline {
  readonly news: () => OfflineNews;
  /** Calls back after every change of `news`; returns how to stop it. */
  readonly subscribe: (onChange: () => void) => () => void;
  /**
   * Switches to the stored newer version and reloads this page. Resolves to false, having changed nothing, while
   * another window of the tool is open: its job would lose the parts of the old version that it has not loaded yet.
   */
  readonly switchToNewer: () => Promise<boolean>;
}
