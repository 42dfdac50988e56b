import { BlobReader, configure, type FileEntry, ZipReader } from '@zip.js/zip.js';
import { Problem } from '../../flow';
import { isKnownPath, LIMITS } from './layout';

configure({ useWebWorkers: false });

/** A zip whose table of contents is what an archive may have; nothing of it has been unpacked yet. */
export interface OpenZip {
  readonly paths: readonly string[];
  /** Unpacks one file. @throws Problem 'archive damaged', 'archive too large' when it is more than it said. */
  read(path: string): Promise<Uint8Array<ArrayBuffer>>;
  close(): Promise<void>;
}

export const damaged = (detail: string, path = '', cause?: unknown): Problem =>
  new Problem('archive damaged', { detail, path }, cause);

const tooLarge = (detail: string, path = ''): Problem => new Problem('archive too large', { detail, path });

/**
 * Reads the table of contents and refuses what no archive of ours holds: names that lead elsewhere, two files of one
 * name, files that overlap, encryption, sizes beyond the limits. Names are only compared, never used as paths.
 * @throws Problem 'archive damaged' or 'archive too large'.
 */
export async function openZip(blob: Blob): Promise<OpenZip> {
  const zip = new ZipReader(new BlobReader(blob), { strictness: 'strict', checkOverlappingEntry: true });
  const entries = new Map<string, FileEntry>();
  let total = 0;
  try {
    for await (const entry of zip.getEntriesGenerator()) {
      const { filename: path, uncompressedSize: size } = entry;
      if (!isKnownPath(path)) throw damaged('record.archive.strange-name', path);
      if (entry.directory || entry.encrypted) throw damaged('record.archive.strange-name', path);
      if (entries.has(path)) throw damaged('record.archive.twice', path);
      if (size > (path.endsWith('.bin') ? LIMITS.photo : LIMITS.json))
        throw tooLarge('record.archive.large-file', path);
      total += size;
      if (total > LIMITS.total) throw tooLarge('record.archive.large-whole');
      entries.set(path, entry);
      if (entries.size > LIMITS.files) throw tooLarge('record.archive.many-files');
    }
  } catch (error) {
    await zip.close().catch(() => {});
    throw error instanceof Problem ? error : damaged('record.archive.not-zip', '', error);
  }
  return {
    paths: [...entries.keys()],
    read: async (path) => {
      const entry = entries.get(path);
      if (!entry) throw damaged('record.archive.absent', path);
      return unpack(entry, path);
    },
    close: () => zip.close(),
  };
}

/** Unpacks into a place of the size that was promised; more than that ends the work at once. */
async function unpack(entry: FileEntry, path: string): Promise<Uint8Array<ArrayBuffer>> {
  const out = new Uint8Array(entry.uncompressedSize);
  let at = 0;
  const sink = new WritableStream<Uint8Array>({
    write: (chunk) => {
      if (at + chunk.length > out.length) throw tooLarge('record.archive.large-file', path);
      out.set(chunk, at);
      at += chunk.length;
    },
  });
  try {
    await entry.getData(sink, { checkSignature: true });
  } catch (error) {
    throw error instanceof Problem ? error : damaged('record.archive.unreadable', path, error);
  }
  if (at !== out.length) throw damaged('record.archive.unreadable', path);
  return out;
}
