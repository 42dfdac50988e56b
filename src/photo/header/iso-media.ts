import { Problem } from '../../flow';
import { ascii, u32be } from '../bytes';
import type { PictureHeader } from './types';

interface Box {
  readonly type: string;
  /** Where the contents start and end. */
  readonly start: number;
  readonly end: number;
}

/** Boxes of ISO/IEC 14496-12 one after another; size 1 means a 64-bit size follows, size 0 means to the end. */
function* boxes(bytes: Uint8Array, from: number, to: number): Generator<Box> {
  for (let at = from; at + 8 <= to; ) {
    let size = u32be(bytes, at) as number;
    let header = 8;
    if (size === 1) {
      size = (u32be(bytes, at + 8) ?? 0) * 2 ** 32 + (u32be(bytes, at + 12) ?? 0);
      header = 16;
    } else if (size === 0) size = to - at;
    if (size < header) throw new Problem('undecodable picture');
    if (at + size > to) throw new Problem('truncated picture');
    yield { type: ascii(bytes, at + 4, 4), start: at + header, end: at + size };
    at += size;
  }
}

function find(bytes: Uint8Array, from: number, to: number, type: string): Box | undefined {
  for (const box of boxes(bytes, from, to)) if (box.type === type) return box;
  return undefined;
}

/**
 * Size of an AVIF or HEIC picture: the largest `ispe` property (tiles and the thumbnail are smaller), turned
 * by `irot`. Widths and heights here are already upright: decoders apply `irot`, and EXIF orientation is
 * to be ignored in this container (ISO/IEC 23008-12; from memory, not read).
 */
export function readIsoMediaHeader(bytes: Uint8Array): PictureHeader {
  let meta: Box | undefined;
  let animated = ascii(bytes, 8, 4) === 'avis' || ascii(bytes, 8, 4) === 'msf1';
  for (const box of boxes(bytes, 0, bytes.length)) {
    if (box.type === 'meta') meta = box;
    if (box.type === 'moov') animated = true;
  }
  if (!meta) throw new Problem('undecodable picture');
  const iprp = find(bytes, meta.start + 4, meta.end, 'iprp');
  const ipco = iprp && find(bytes, iprp.start, iprp.end, 'ipco');
  if (!ipco) throw new Problem('undecodable picture');
  let width = 0;
  let height = 0;
  let quarterTurns = 0;
  for (const box of boxes(bytes, ipco.start, ipco.end)) {
    if (box.type === 'ispe') {
      const w = u32be(bytes, box.start + 4) ?? 0;
      const h = u32be(bytes, box.start + 8) ?? 0;
      if (w * h > width * height) [width, height] = [w, h];
    } else if (box.type === 'irot') quarterTurns = (bytes[box.start] ?? 0) & 3;
  }
  return quarterTurns % 2 === 1 ? { width: height, height: width, animated } : { width, height, animated };
}
