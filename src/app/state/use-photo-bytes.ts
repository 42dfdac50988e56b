import { useEffect, useState } from 'react';
import { useServices } from '../services/context';
import { useOpenJob } from './use-job';

/** A photo's original bytes: null while they are fetched, undefined when this device does not have them. */
export function usePhotoBytes(job: string, photo: string): Blob | null | undefined {
  const { store } = useServices();
  const { saver } = useOpenJob();
  const [bytes, setBytes] = useState<Blob | null | undefined>(null);
  useEffect(() => {
    const pending = saver.pendingPhoto(photo);
    setBytes(pending);
    if (pending) return undefined;
    let current = true;
    store.photo(job, photo).then(
      (found) => {
        if (current) setBytes(found ?? undefined);
      },
      () => {
        if (current) setBytes(undefined);
      },
    );
    return () => {
      current = false;
    };
  }, [store, saver, job, photo]);
  return bytes;
}
