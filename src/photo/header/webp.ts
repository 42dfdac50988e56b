import { Problem } from '../../flow';
import { ascii, u16le, u24le, u32le } from '../bytes';
import type { PictureHeader } from './types';

type Size = { width: number; height: number };

const ANIMATION_FLAG = 0x02;

/** Size from the first chunk; bit layouts of RFC 6386 (VP8), RFC 9649 (VP8L, VP8X). From memory, not read. */
function sizeOf(bytes: Uint8Array, type: string, at: number): Size | undefined {
  if (type === 'VP8X') return { width: (u24le(bytes, at + 4) ?? -1) + 1, height: (u24le(bytes, at + 7) ?? -1) + 1 };
  if (type === 'VP8 ')
    return { width: (u16le(bytes, at + 6) ?? 0) & 0x3fff, height: (u16le(bytes, at + 8) ?? 0) & 0x3fff };
  if (type === 'VP8L') {
    const bits = u32le(bytes, at + 1) ?? 0;
    return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
  }
  return undefined;
}

/** The RIFF length must be there in bytes; chunks are padded to even length. */
export function readWebpHeader(bytes: Uint8Array): PictureHeader {
  const riff = u32le(bytes, 4);
  if (riff === undefined || riff + 8 > bytes.length) throw new Problem('truncated picture');
  let size: Size | undefined;
  let animated = false;
  let exif: Uint8Array | undefined;
  for (let at = 12; at + 8 <= riff + 8; ) {
    const type = ascii(bytes, at, 4);
    const length = u32le(bytes, at + 4) ?? 0;
    if (at + 8 + length > bytes.length) throw new Problem('truncated picture');
    size ??= sizeOf(bytes, type, at + 8);
    if (type === 'VP8X') animated = ((bytes[at + 8] ?? 0) & ANIMATION_FLAG) !== 0;
    if (type === 'EXIF') {
      // Some writers repeat the prefix that JPEG needs.
      const skip = ascii(bytes, at + 8, 6) === 'Exif\0\0' ? 6 : 0;
      exif = bytes.subarray(at + 8 + skip, at + 8 + length);
    }
    at += 8 + length + (length % 2);
  }
  if (!size) throw new Problem('undecodable picture');
  return exif ? { ...size, animated, exif } : { ...size, animated };
}

/** A copy whose EXIF chunk no reader knows, so that a decoder cannot turn the picture by it. */
export function withoutWebpExif(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const copy = new Uint8Array(bytes);
  for (let at = 12; at + 8 <= copy.length; ) {
    const length = u32le(copy, at + 4) ?? 0;
    if (ascii(copy, at, 4) === 'EXIF') copy.set([0x73, 0x6b, 0x69, 0x70], at);
    at += 8 + length + (length % 2);
  }
  return copy;
}
