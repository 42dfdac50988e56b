import type { Job, JobPhoto, LogEntry } from '../../flow';
import type { JobShell } from '../job-hash';

/*
 * An archive is a zip with these files and no other:
 *
 *   manifest.json        what the archive is, and size and SHA-256 of every other file
 *   job.json             the job, each photo stood in for by the hash of its findings
 *   log.json             the log, first entry first
 *   photos/0001.json     what was read from, said and measured on a photo
 *   photos/0001.bin      the photo's original bytes, stored as they are
 *
 * No name in it comes from a user, so that none can lead out of it. manifest, job, log and each photo have a
 * published JSON Schema in schemas/.
 */

export const MANIFEST = 'manifest.json';
export const JOB = 'job.json';
export const LOG = 'log.json';

export const photoPath = (index: number, kind: 'json' | 'bin'): string =>
  `photos/${String(index + 1).padStart(4, '0')}.${kind}`;

const PHOTO_PATH = /^photos\/(\d{4,5})\.(json|bin)$/;
export const isKnownPath = (path: string): boolean =>
  path === MANIFEST || path === JOB || path === LOG || PHOTO_PATH.test(path);

/** Bounds on what is read into memory or onto the device, far above a turnover of a building. */
export const LIMITS = {
  files: 20_003,
  /** Bytes of one JSON file unpacked. */
  json: 64 * 2 ** 20,
  /** Bytes of one photo. */
  photo: 256 * 2 ** 20,
  /** Bytes of everything unpacked. */
  total: 16 * 2 ** 30,
} as const;

export interface ListedFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
  /** Media type of a photo's bytes. */
  readonly type?: string;
}

export interface Manifest {
  readonly format: 'hueproof archive';
  readonly version: 1;
  readonly exportedAt: string;
  readonly files: readonly ListedFile[];
}

/** A job to be archived, photo by photo, so that no more than one stands in memory. */
export interface ArchiveSource {
  readonly shell: JobShell;
  readonly log: readonly LogEntry[];
  photo(id: string): Promise<JobPhoto>;
  /** The original bytes; null when they are not here. */
  bytes(id: string): Promise<Blob | null>;
}

/** A source from a job that is in memory. */
export const sourceOf = (
  job: Job,
  shell: JobShell,
  log: readonly LogEntry[],
  bytes: (id: string) => Promise<Blob | null>,
): ArchiveSource => {
  const byId = new Map(job.photos.map((photo) => [photo.id, photo]));
  return {
    shell,
    log,
    bytes,
    photo: async (id) => {
      const photo = byId.get(id);
      if (!photo) throw new RangeError(`no photo ${id}`);
      return photo;
    },
  };
};
