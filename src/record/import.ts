import { type Job, type LogEntry, message, Problem } from '../flow';
import { fromBase64 } from './base64';
import { chainFault, nextEntry } from './chain';
import type { PhotoBytes } from './export';
import { hashBytes } from './hash';
import { expectShape, MIGRATIONS, malformed, migrate } from './migrate';
import { type ExportFile, ExportSchema } from './schema';

export interface ImportedJob {
  readonly job: Job;
  readonly log: readonly LogEntry[];
  /** Photos whose bytes were in the file. */
  readonly photos: PhotoBytes;
}

/** Our files nest to about 12 levels. A file made to exhaust the stack of whoever reads it nests to thousands. */
const DEEPEST = 100;

function isDeep(value: unknown): boolean {
  let level = [value];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > DEEPEST) return true;
    level = level.flatMap((each) => (typeof each === 'object' && each !== null ? Object.values(each) : []));
  }
  return false;
}

function parse(text: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw malformed('record.import.not-json');
  }
  if (isDeep(value)) throw malformed('record.import.other-format');
  return value;
}

/** Looks at what tells our files from others before the long check, so that the sentence fits. */
function expectOurs(value: unknown): ExportFile {
  const head = value as { format?: unknown; version?: unknown } | null;
  if (typeof head !== 'object' || head?.format !== 'hueproof job') throw malformed('record.import.other-format');
  if (typeof head.version === 'number' && head.version > 1) throw malformed('record.import.newer');
  // A job of an older schema is checked after its migration; the hashes are of the job as it was written.
  return expectShape<ExportFile>(ExportSchema, value);
}

async function readPhotos(file: ExportFile): Promise<PhotoBytes> {
  const photos = new Map<string, Blob>();
  for (const { id, sha256, type, base64 } of file.photos) {
    const wanted = file.job.photos.find((p) => p.id === id)?.findings.photo.sha256;
    if (wanted === undefined || wanted !== sha256) throw new Problem('record changed');
    if (base64 === null) continue;
    const bytes = fromBase64(base64);
    if (!bytes || (await hashBytes(bytes)) !== sha256) throw new Problem('record changed');
    photos.set(id, new Blob([bytes], { type }));
  }
  return photos;
}

/**
 * Reads an exported job from text and proves it: form, log, job and every photo's hash.
 * A job of an older layout is brought to the current one, which its log then says.
 * @throws Problem 'import malformed' when it is not such a file, 'record changed' when a hash does not fit.
 */
export async function importJob(text: string, steps = MIGRATIONS): Promise<ImportedJob> {
  const file = expectOurs(parse(text));
  if (await chainFault(file.job, file.log)) throw new Problem('record changed');
  const photos = await readPhotos(file);
  const job = migrate(file.job, steps);
  if (job === file.job) return { job, log: file.log, photos };
  const changes = [message('record.change.migrated')];
  return { job, log: [...file.log, await nextEntry(file.log.at(-1), job, file.exportedAt, changes)], photos };
}
