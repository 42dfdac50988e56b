import { configure, Uint8ArrayReader, ZipWriter } from '@zip.js/zip.js';
import { hashBytes } from '../hash';
import { type ArchiveSource, JOB, type ListedFile, LOG, MANIFEST, type Manifest, photoPath } from './layout';

configure({ useWebWorkers: false });

/**
 * Writes an archive into `sink`, one photo at a time. JSON is packed, photos are stored as they are. Two archives of
 * the same source at the same `exportedAt` are equal byte for byte.
 * @param exportedAt ISO 8601; also the date of every file in it.
 */
export async function writeArchive(
  source: ArchiveSource,
  sink: WritableStream<Uint8Array<ArrayBuffer>>,
  exportedAt: string,
  onPhoto: (done: number, of: number) => void = () => {},
): Promise<void> {
  const zip = new ZipWriter(sink, { lastModDate: new Date(exportedAt), extendedTimestamp: false });
  const files: ListedFile[] = [];
  const add = async (path: string, bytes: Uint8Array<ArrayBuffer>, type?: string): Promise<void> => {
    await zip.add(path, new Uint8ArrayReader(bytes), { level: type === undefined ? 6 : 0 });
    files.push({ path, bytes: bytes.length, sha256: await hashBytes(bytes), ...(type === undefined ? {} : { type }) });
  };
  const json = (value: unknown): Uint8Array<ArrayBuffer> => new TextEncoder().encode(JSON.stringify(value));

  await add(JOB, json(source.shell));
  await add(LOG, json(source.log));
  const { photos } = source.shell;
  for (const [k, { id }] of photos.entries()) {
    await add(photoPath(k, 'json'), json(await source.photo(id)));
    const blob = await source.bytes(id);
    if (blob) await add(photoPath(k, 'bin'), new Uint8Array(await blob.arrayBuffer()), blob.type);
    onPhoto(k + 1, photos.length);
  }
  const manifest: Manifest = { format: 'hueproof archive', version: 1, exportedAt, files };
  await zip.add(MANIFEST, new Uint8ArrayReader(json(manifest)), { level: 6 });
  await zip.close();
}
