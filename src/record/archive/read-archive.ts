import * as v from 'valibot';
import { type Job, type JobPhoto, type LogEntry, message, Problem } from '../../flow';
import { nextEntry } from '../chain';
import { migrate } from '../migrate';
import { photoPath } from './layout';
import { openZip } from './open-zip';
import { readJson, verifyArchive } from './verify-archive';

export interface ReadArchive {
  readonly job: Job;
  readonly log: readonly LogEntry[];
  /** Ids of the photos whose bytes are in the archive. */
  readonly withBytes: readonly string[];
  /** A photo's bytes, proved before; unpacked anew each time. */
  bytes(id: string): Promise<Blob>;
  close(): Promise<void>;
}

const loose = v.looseObject({});

/**
 * Opens an archive for import, after proving every hash in it. Photos stay packed until asked for.
 * @throws Problem 'archive damaged', 'archive too large', 'record changed' when any hash does not fit.
 */
export async function readArchive(blob: Blob): Promise<ReadArchive> {
  const zip = await openZip(blob);
  try {
    const { faults, parts } = await verifyArchive(zip);
    if (faults.length > 0 || !parts) throw new Problem('record changed');
    const { shell, manifest } = parts;
    const photos: JobPhoto[] = [];
    for (const k of shell.photos.keys()) {
      const path = photoPath(k, 'json');
      photos.push(readJson<JobPhoto>(loose, await zip.read(path), path));
    }
    const kept = { ...shell, photos };
    const job = migrate(kept);
    const changes = [message('record.change.migrated')];
    const log =
      kept.schema === job.schema
        ? parts.log
        : [...parts.log, await nextEntry(parts.log.at(-1), job, manifest.exportedAt, changes)];
    const types = new Map(manifest.files.map((file) => [file.path, file.type ?? '']));
    const paths = new Map(shell.photos.map(({ id }, k) => [id, photoPath(k, 'bin')]));
    return {
      job,
      log,
      withBytes: [...paths].filter(([, path]) => types.has(path)).map(([id]) => id),
      bytes: async (id) => {
        const path = paths.get(id) ?? '';
        return new Blob([await zip.read(path)], { type: types.get(path) ?? '' });
      },
      close: () => zip.close(),
    };
  } catch (error) {
    await zip.close();
    throw error;
  }
}
