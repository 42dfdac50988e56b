import type { JobStore } from '../../record';
import type { Services } from './types';

/**
 * A store that can be used before it is open. When opening fails, every call rejects with that problem, so that the
 * rest of the tool works in a private window and says what is missing only where it matters.
 */
export function lateStore(opening: Promise<JobStore>): Services['store'] {
  // Each call below reports the failure; this only keeps it from counting as unhandled before the first one.
  opening.catch(() => {});
  return {
    list: async () => await (await opening).list(),
    open: async (id) => await (await opening).open(id),
    log: async (id) => await (await opening).log(id),
    save: async (job) => await (await opening).save(job),
    keepPhoto: async (job, photo, bytes) => await (await opening).keepPhoto(job, photo, bytes),
    photo: async (job, photo) => await (await opening).photo(job, photo),
    enqueue: async (job, order, file, name) => await (await opening).enqueue(job, order, file, name),
    waiting: async (job) => await (await opening).waiting(job),
    dequeue: async (job, photo) => await (await opening).dequeue(job, photo),
    remove: async (id) => await (await opening).remove(id),
    exportJson: async (job) => await (await opening).exportJson(job),
    exportCsv: async (job, standings) => await (await opening).exportCsv(job, standings),
    exportArchive: async (job) => await (await opening).exportArchive(job),
    importJson: async (file) => await (await opening).importJson(file),
  };
}
