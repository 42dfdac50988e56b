import { Problem } from '../../flow';
import { ascii, u32be } from '../bytes';
import type { PictureHeader } from './types';

/** Walks the chunks to IEND (W3C PNG, section 5). An `acTL` chunk with more than one frame means it is animated. */
export function readPngHeader(bytes: Uint8Array): PictureHeader {
  let width = 0;
  let height = 0;
  let animated = false;
  let exif: Uint8Array | undefined;
  for (let at = 8; ; ) {
    const length = u32be(bytes, at);
    if (length === undefined || at + 12 + length > bytes.length) throw new Problem('truncated picture');
    const type = ascii(bytes, at + 4, 4);
    if (at === 8 && type !== 'IHDR') throw new Problem('undecodable picture');
    if (type === 'IHDR') {
      width = u32be(bytes, at + 8) ?? 0;
      height = u32be(bytes, at + 12) ?? 0;
    } else if (type === 'acTL') animated = (u32be(bytes, at + 8) ?? 0) > 1;
    else if (type === 'eXIf') exif = bytes.subarray(at + 8, at + 8 + length);
    else if (type === 'IEND') break;
    at += 12 + length;
  }
  return exif ? { width, height, animated, exif } : { width, height, animated };
}
