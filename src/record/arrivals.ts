import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { guarded } from './storage-problem';

/** What is known of a photo before it is read: where it goes. */
export interface ArrivalNote {
  /** File name as given. Untrusted text. */
  readonly name: string;
  /** The way through the screens that it was taken for. */
  readonly journey: string;
  /** Id of the job that gets it; absent: a new one. */
  readonly job?: string;
  /** Termination of that job that it shows. */
  readonly at?: { readonly id: string; readonly panel: string; readonly space: number | null };
}

export interface KeptArrival extends ArrivalNote {
  readonly id: string;
  readonly bytes: Blob;
}

/**
 * Photos on their way in, kept on the device until they are read: a page that the system ends for want of memory ends
 * without a word, and a photo taken through it is nowhere else. Every method rejects with a `Problem` and nothing else.
 */
export interface Arrivals {
  keep(id: string, bytes: Blob, note: ArrivalNote): Promise<void>;
  /** Photos that a page which is no more left behind, first come first; those of open pages are theirs. */
  left(): Promise<readonly KeptArrival[]>;
  /** Forgets a photo that is in its job, or that the user left. */
  drop(id: string): Promise<void>;
}

interface Kept extends ArrivalNote {
  readonly id: string;
  /** When it came, milliseconds since 1970. */
  readonly came: number;
  readonly type: string;
  /** Bytes, not a Blob: some browsers lose the file behind a stored Blob when they restart. */
  readonly bytes: ArrayBuffer;
}

interface ArrivalDb extends DBSchema {
  arrivals: { key: string; value: Kept };
}

/** Held by the page that reads the photo of this id; the browser lets go of it with the page. */
const lockOf = (id: string): string => `hueproof.arrival.${id}`;

/**
 * In a database of its own: a page of an older version, still open, goes on saving jobs.
 * @param locks tell open pages from those that are no more; without them every photo kept counts as left behind
 */
export function openArrivals(
  name = 'hueproof-arrivals',
  locks: LockManager | undefined = globalThis.navigator?.locks,
  now: () => number = Date.now,
): Arrivals {
  let opening: Promise<IDBPDatabase<ArrivalDb>> | undefined;
  const free = new Map<string, () => void>();
  let tail: Promise<unknown> = Promise.resolve();

  const open = (): Promise<IDBPDatabase<ArrivalDb>> => {
    opening ??= openDB<ArrivalDb>(name, 1, {
      upgrade: (db) => void db.createObjectStore('arrivals', { keyPath: 'id' }),
      // A browser that throws its storage away closes the connection; the next call opens another.
      terminated: () => {
        opening = undefined;
      },
    });
    opening.catch(() => {
      opening = undefined;
    });
    return opening;
  };
  /** One after another: a photo is not dropped before it was written. */
  const inTurn = <T>(work: (db: IDBPDatabase<ArrivalDb>) => Promise<T>): Promise<T> => {
    const run = (): Promise<T> => guarded(async () => work(await open()));
    const next = tail.then(run, run);
    tail = next.catch(() => {});
    return next;
  };
  const hold = (id: string): void => {
    if (!locks || free.has(id)) return;
    const until = new Promise<void>((done) => free.set(id, done));
    locks.request(lockOf(id), () => until).catch(() => {});
  };

  return {
    keep(id, bytes, note) {
      hold(id);
      return inTurn(async (db) => {
        const kept: Kept = { ...note, id, came: now(), type: bytes.type, bytes: await bytes.arrayBuffer() };
        await db.put('arrivals', kept);
      });
    },
    left: () =>
      inTurn(async (db) => {
        const held = new Set(((await locks?.query())?.held ?? []).map((lock) => lock.name));
        const all = (await db.getAll('arrivals')).filter(({ id }) => !held.has(lockOf(id)) && !free.has(id));
        return all
          .sort((a, b) => a.came - b.came)
          .map(({ came, type, bytes, ...rest }) => ({ ...rest, bytes: new Blob([bytes], { type }) }));
      }),
    drop: (id) =>
      inTurn(async (db) => {
        await db.delete('arrivals', id);
        free.get(id)?.();
        free.delete(id);
      }),
  };
}
