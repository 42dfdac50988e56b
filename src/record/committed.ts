/** What is needed of a transaction of the idb library. */
interface Ending {
  readonly done: Promise<void>;
  readonly error: DOMException | null;
}

/**
 * Waits until a transaction is on the disk. When a commit fails (quota, disk), its requests are told only that they
 * were aborted, and first; the reason stands in the transaction, and that is what is thrown.
 */
export async function committed(transaction: Ending, requests: readonly Promise<unknown>[]): Promise<void> {
  try {
    await Promise.all([...requests, transaction.done]);
  } catch (error) {
    await transaction.done.catch(() => {});
    throw transaction.error ?? error;
  }
}
