/** Room on this device for records, where the browser tells. */
export interface StorageSpace {
  readonly usedBytes?: number;
  readonly quotaBytes?: number;
  /** True when the browser promised not to clear records by itself. */
  readonly persisted: boolean;
}

export async function storageSpace(): Promise<StorageSpace> {
  const storage = globalThis.navigator?.storage;
  if (!storage) return { persisted: false };
  const { usage, quota } = await storage.estimate();
  return {
    ...(usage === undefined ? {} : { usedBytes: usage }),
    ...(quota === undefined ? {} : { quotaBytes: quota }),
    persisted: await storage.persisted(),
  };
}

/** Asks the browser not to clear records by itself; false when it will not promise. */
export async function askToPersist(): Promise<boolean> {
  const storage = globalThis.navigator?.storage;
  return storage?.persist ? await storage.persist() : false;
}
