import { type PhotoFacts, Problem } from '../flow';
import { readExif } from './exif';
import { readHeader } from './header/header';
import { sha256 } from './sha256';
import { sniffFormat } from './sniff';

/**
 * Bounds of what is opened, the same in the browser and on the command line so that both give one answer.
 * Longest side 16,384: the largest phone sensors give 16,320; beyond it canvases fail and a strip shrunk to
 * working size shows no conductor. Area 110 million: the next class below (12,000 x 9,000) decodes to 440 MB,
 * about what one tab may hold. Shortest side 64: below it nothing can be traced.
 */
export const LIMITS = { maxSide: 16_384, maxPixels: 110e6, minSide: 64 } as const;

/**
 * Everything known of a photo without its pixels. `name` is kept as given (untrusted, cut to 200 characters).
 * @throws Problem 'empty file', 'pdf', 'not a picture', 'truncated picture', 'undecodable picture',
 *   'picture too small', 'picture too large'.
 */
export async function readFacts(bytes: Uint8Array, name: string): Promise<PhotoFacts> {
  const format = sniffFormat(bytes);
  const header = readHeader(bytes, format);
  const exif = await readExif(header.exif);
  const turned = exif.orientation >= 5;
  const width = turned ? header.height : header.width;
  const height = turned ? header.width : header.height;
  const size = { width, height };
  if (Math.min(width, height) < LIMITS.minSide) throw new Problem('picture too small', size);
  if (Math.max(width, height) > LIMITS.maxSide || width * height > LIMITS.maxPixels)
    throw new Problem('picture too large', size);
  return {
    name: name.slice(0, 200),
    format,
    byteLength: bytes.length,
    sha256: await sha256(bytes),
    width,
    height,
    ...exif,
    ...(header.animated ? { animated: true as const } : {}),
  };
}
