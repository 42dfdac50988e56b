import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { Problem } from '../flow';

const PICTURE = /\.(?:jpe?g|png|webp|avif|gif|heic|heif)$/i;

/** A photo of a folder, by its bytes. */
export interface FolderPhoto {
  readonly path: string;
  /** Below the folder, with slashes. */
  readonly name: string;
  readonly sha256: string;
}

/**
 * Pictures below a folder in the order of their names (IMG_2 before IMG_10). Links are not followed.
 * @throws Problem 'bad argument' when the folder cannot be read.
 */
export async function listFolder(folder: string): Promise<string[]> {
  try {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true });
    const compare = new Intl.Collator('en', { numeric: true }).compare;
    return entries
      .filter((entry) => entry.isFile() && PICTURE.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      .sort(compare);
  } catch (error) {
    const why = (error as { code?: string }).code ?? 'unknown';
    throw new Problem('bad argument', { detail: 'command.cannot-open', why }, error);
  }
}

/** Lower-case hex SHA-256 of a file, read in pieces. */
export async function hashFile(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
  return hash.digest('hex');
}
