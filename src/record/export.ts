import type { Job, LogEntry } from '../flow';
import { toBase64 } from './base64';
import { hashBytes } from './hash';
import type { ExportFile } from './schema';

/** A photo's original bytes, by the id it has in the job. */
export type PhotoBytes = ReadonlyMap<string, Blob>;

/** Above this many bytes of photos the export leaves them out: a browser cannot parse a longer text again. */
export const EMBED_LIMIT = 256 * 2 ** 20;

/**
 * A job with its log as one JSON value that `importJob` reads without loss. Photos given are embedded as Base64
 * unless they exceed `EMBED_LIMIT` together; those not given are listed with their hash alone.
 */
export async function exportJob(
  job: Job,
  log: readonly LogEntry[],
  photos: PhotoBytes,
  exportedAt: string,
): Promise<ExportFile> {
  const total = [...photos.values()].reduce((sum, blob) => sum + blob.size, 0);
  const listed: ExportFile['photos'][number][] = [];
  for (const { id, findings } of job.photos) {
    const blob = photos.get(id);
    const bytes = blob && total <= EMBED_LIMIT ? new Uint8Array(await blob.arrayBuffer()) : undefined;
    listed.push({
      id,
      sha256: bytes ? await hashBytes(bytes) : findings.photo.sha256,
      type: blob?.type ?? '',
      base64: bytes ? toBase64(bytes) : null,
    });
  }
  return { format: 'hueproof job', version: 1, exportedAt, job, log, photos: listed };
}

/**
 * The same as a JSON file. It is put together photo by photo: one text of a hundred photos would hold up the page
 * and stand in memory twice.
 */
export async function exportFile(
  job: Job,
  log: readonly LogEntry[],
  photos: PhotoBytes,
  exportedAt: string,
): Promise<Blob> {
  const { photos: listed, ...rest } = await exportJob(job, log, photos, exportedAt);
  const head = JSON.stringify({ ...rest, photos: [] });
  const parts: string[] = [head.slice(0, -']}'.length)];
  for (const [k, photo] of listed.entries()) parts.push(k > 0 ? ',' : '', JSON.stringify(photo));
  return new Blob([...parts, ']}'], { type: 'application/json' });
}
