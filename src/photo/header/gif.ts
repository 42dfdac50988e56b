import { Problem } from '../../flow';
import { u16le } from '../bytes';
import type { PictureHeader } from './types';

const EXTENSION = 0x21;
const IMAGE = 0x2c;
const TRAILER = 0x3b;

const colorTableBytes = (packed: number): number => (packed & 0x80 ? 3 << ((packed & 7) + 1) : 0);

/** Past a chain of sub-blocks that ends with a block of length 0. */
function skipSubBlocks(bytes: Uint8Array, from: number): number {
  for (let at = from; ; ) {
    const length = bytes[at];
    if (length === undefined || at + 1 + length > bytes.length) throw new Problem('truncated picture');
    at += 1 + length;
    if (length === 0) return at;
  }
}

/** Walks the blocks of GIF89a and counts frames. A missing trailer after a whole frame is forgiven. */
export function readGifHeader(bytes: Uint8Array): PictureHeader {
  const width = u16le(bytes, 6);
  const height = u16le(bytes, 8);
  const packed = bytes[10];
  if (width === undefined || height === undefined || packed === undefined) throw new Problem('truncated picture');
  let frames = 0;
  let at = 13 + colorTableBytes(packed);
  while (at < bytes.length && bytes[at] !== TRAILER) {
    if (bytes[at] === EXTENSION) at = skipSubBlocks(bytes, at + 2);
    else if (bytes[at] === IMAGE) {
      const local = bytes[at + 9];
      if (local === undefined) throw new Problem('truncated picture');
      at = skipSubBlocks(bytes, at + 11 + colorTableBytes(local));
      frames += 1;
    } else throw new Problem('undecodable picture');
  }
  if (frames === 0) throw new Problem('truncated picture');
  return { width, height, animated: frames > 1 };
}
