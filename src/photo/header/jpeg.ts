import { Problem } from '../../flow';
import { ascii, u16be } from '../bytes';
import type { PictureHeader } from './types';

const END_OF_IMAGE = 0xd9;
const START_OF_SCAN = 0xda;
const APP1 = 0xe1;

/** Markers without a length: TEM and RST0 to RST7 (ITU-T T.81, table B.1; from memory). */
const standsAlone = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7);

/** SOF0 to SOF15 without DHT (C4), JPG (C8) and DAC (CC), which share the range. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Next marker of entropy-coded data: an FF that is neither stuffing (00) nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at)) {
    const next = bytes[at + 1];
    if (next === undefined) break;
    if (next === 0xff) at += 1;
    else if (next === 0 || standsAlone(next)) at += 2;
    else return at;
  }
  throw new Problem('truncated picture');
}

/**
 * Walks the segments to the end-of-image marker. Bytes after it (second pictures, maker's trailers) are normal.
 * A file without that marker is taken as cut off, even if only the marker is missing: the two cannot be told apart.
 */
export function readJpegHeader(bytes: Uint8Array): PictureHeader {
  let size: { width: number; height: number } | undefined;
  let exif: Uint8Array | undefined;
  let at = 2;
  for (;;) {
    at = bytes.indexOf(0xff, at);
    if (at < 0) throw new Problem('truncated picture');
    while (bytes[at] === 0xff) at += 1;
    const marker = bytes[at];
    if (marker === undefined) throw new Problem('truncated picture');
    at += 1;
    if (marker === END_OF_IMAGE) break;
    if (marker === 0 || standsAlone(marker)) continue;
    const length = u16be(bytes, at);
    if (length === undefined || at + length > bytes.length) throw new Problem('truncated picture');
    if (length < 2) throw new Problem('undecodable picture');
    if (isFrame(marker) && !size) size = { height: u16be(bytes, at + 3) ?? 0, width: u16be(bytes, at + 5) ?? 0 };
    if (marker === APP1 && !exif && ascii(bytes, at + 2, 6) === 'Exif\0\0') exif = bytes.subarray(at + 8, at + length);
    at += length;
    if (marker === START_OF_SCAN) at = endOfScan(bytes, at);
  }
  if (!size) throw new Problem('undecodable picture');
  return exif ? { ...size, animated: false, exif } : { ...size, animated: false };
}
