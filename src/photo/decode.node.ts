import sharp from 'sharp';
import { Problem, throwIfCancelled } from '../flow';
import type { DecodedPhoto, DecodeOptions } from './decoded';
import { LIMITS, readFacts } from './facts';
import { WORKING_SIDE, workingSize } from './working-size';

export type { DecodedPhoto, DecodeOptions } from './decoded';

// libvips keeps decoded tiles between calls by default; photos are never read twice.
sharp.cache(false);

/**
 * Opens a photo in Node: upright, sRGB, first frame, at working size. JPEG is shrunk while it is decoded.
 * A transparent picture is laid on white, as a page would show it.
 * @throws Problem as `readFacts`, 'heic unsupported', 'undecodable picture', 'cancelled'.
 */
export async function decodePhoto(
  bytes: ArrayBuffer | Uint8Array,
  name: string,
  { maxSide = WORKING_SIDE, signal }: DecodeOptions = {},
): Promise<DecodedPhoto> {
  throwIfCancelled(signal);
  const view = bytes instanceof Uint8Array ? bytes : new Uint8Array(bytes);
  const facts = await readFacts(view, name);
  if (facts.format === 'heic') throw new Problem('heic unsupported');
  if (facts.format === 'bmp') throw new Problem('not a picture');
  const { width, height, scale } = workingSize(facts.width, facts.height, maxSide);
  let pipeline = sharp(view, { failOn: 'error', limitInputPixels: LIMITS.maxPixels, pages: 1 }).rotate();
  // A triangle kernel has no negative lobes: resizing must not invent a color that lies outside its neighbors.
  if (scale < 1) pipeline = pipeline.resize(width, height, { fit: 'fill', kernel: 'linear' });
  try {
    const { data, info } = await pipeline
      .flatten({ background: '#fff' })
      .toColorspace('srgb')
      .ensureAlpha()
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    throwIfCancelled(signal);
    if (info.width !== width || info.height !== height || info.channels !== 4) throw new Problem('undecodable picture');
    return {
      facts,
      raster: { width, height, data: new Uint8ClampedArray(data.buffer, data.byteOffset, data.byteLength) },
      scale,
    };
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new Problem('undecodable picture', undefined, error);
  }
}
