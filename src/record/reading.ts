import type { IDBPDatabase, IDBPObjectStore, IDBPTransaction, StoreNames } from 'idb';
import type { RecordDb } from './database';

type Db = IDBPDatabase<RecordDb>;
type Store = StoreNames<RecordDb>;

/**
 * A transaction to read in. When a read fails it is the read that says so; that the transaction ended by it is told as
 * well, and where nobody listened the page would report an error that was dealt with.
 */
export function readingAll<const S extends readonly Store[]>(db: Db, stores: S): IDBPTransaction<RecordDb, S> {
  const transaction = db.transaction(stores);
  transaction.done.catch(() => {});
  return transaction;
}

/** One store of such a transaction. */
export const reading = <S extends Store>(db: Db, store: S): IDBPObjectStore<RecordDb, readonly [S], S> =>
  readingAll(db, [store]).objectStore(store);
