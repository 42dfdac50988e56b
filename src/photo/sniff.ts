import { type PhotoFormat, Problem } from '../flow';
import { ascii, u32be } from './bytes';

/** Brands of ISO/IEC 23008-12 (HEIF) that hold HEVC or an unnamed codec. From memory, not read. */
const HEIC_BRANDS = new Set(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs', 'mif1', 'msf1']);
const AVIF_BRANDS = new Set(['avif', 'avis']);

function sniffIsoMedia(bytes: Uint8Array): PhotoFormat | undefined {
  const end = Math.min(u32be(bytes, 0) ?? 0, bytes.length, 256);
  const brands: string[] = [ascii(bytes, 8, 4)];
  for (let at = 16; at + 4 <= end; at += 4) brands.push(ascii(bytes, at, 4));
  if (brands.some((b) => AVIF_BRANDS.has(b))) return 'avif';
  return brands.some((b) => HEIC_BRANDS.has(b)) ? 'heic' : undefined;
}

/**
 * The format of a picture by its first bytes; the file's extension is never asked.
 * @throws Problem 'empty file', 'pdf' or 'not a picture'.
 */
export function sniffFormat(bytes: Uint8Array): PhotoFormat {
  if (bytes.length === 0) throw new Problem('empty file');
  const head = ascii(bytes, 0, 12);
  if (head.startsWith('\xff\xd8\xff')) return 'jpeg';
  if (head.startsWith('\x89PNG\r\n\x1a\n')) return 'png';
  if (head.startsWith('RIFF') && head.slice(8) === 'WEBP') return 'webp';
  if (head.startsWith('GIF87a') || head.startsWith('GIF89a')) return 'gif';
  if (head.slice(4, 8) === 'ftyp') {
    const format = sniffIsoMedia(bytes);
    if (format) return format;
  }
  if (head.startsWith('BM') && u32be(bytes, 6) === 0) return 'bmp';
  // Readers accept a PDF whose mark stands anywhere in the first kilobyte.
  if (ascii(bytes, 0, 1024).includes('%PDF-')) throw new Problem('pdf');
  throw new Problem('not a picture');
}
