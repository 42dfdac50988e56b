import { type PhotoFormat, Problem } from '../../flow';
import { readBmpHeader } from './bmp';
import { readGifHeader } from './gif';
import { readIsoMediaHeader } from './iso-media';
import { readJpegHeader } from './jpeg';
import { readPngHeader } from './png';
import type { PictureHeader } from './types';
import { readWebpHeader } from './webp';

const READERS: Readonly<Record<PhotoFormat, (bytes: Uint8Array) => PictureHeader>> = {
  jpeg: readJpegHeader,
  png: readPngHeader,
  webp: readWebpHeader,
  gif: readGifHeader,
  avif: readIsoMediaHeader,
  heic: readIsoMediaHeader,
  bmp: readBmpHeader,
  camera: readJpegHeader,
};

/**
 * Size of a picture and whether its file is whole, from the container alone: no pixel is decoded, so a picture
 * too large to decode is refused before it costs memory.
 * @throws Problem 'truncated picture' when bytes are missing, 'undecodable picture' when the container is broken.
 */
export function readHeader(bytes: Uint8Array, format: PhotoFormat): PictureHeader {
  const header = READERS[format](bytes);
  if (!(header.width > 0 && header.height > 0)) throw new Problem('undecodable picture');
  return header;
}
