import { type PhotoFacts, Problem, throwIfCancelled } from '../flow';
import type { DecodedPhoto, DecodeOptions } from './decoded';
import { readFacts } from './facts';
import { withoutWebpExif } from './header/webp';
import { uprightTransform } from './upright';
import { WORKING_SIDE, workingSize } from './working-size';

export type { DecodedPhoto, DecodeOptions } from './decoded';

let open = 0;

/** Bitmaps made here and not yet closed; 0 whenever no decode is running. */
export const openBitmaps = (): number => open;

const MIME: Readonly<Record<PhotoFacts['format'], string>> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  avif: 'image/avif',
  gif: 'image/gif',
  heic: 'image/heic',
  bmp: 'image/bmp',
  camera: 'image/jpeg',
};

async function decodeTo(blob: Blob, width: number, height: number, shrink: boolean): Promise<ImageBitmap> {
  // Orientation and Display-P3 to sRGB are what the browser does when nothing is asked for. Not every browser
  // knows the resize options; the bitmap is then full size and the canvas shrinks it.
  return shrink
    ? await createImageBitmap(blob, { resizeWidth: width, resizeHeight: height, resizeQuality: 'high' })
    : await createImageBitmap(blob);
}

/**
 * Opens a photo in a worker (or page): upright, sRGB, first frame, at working size. The full-size picture exists
 * once, inside the browser's decoder, and is gone when this resolves. The buffer is not taken over.
 * @throws Problem as `readFacts`, 'heic unsupported' where the browser cannot decode HEIC,
 *   'undecodable picture', 'engine unavailable' without OffscreenCanvas, 'cancelled'.
 */
export async function decodePhoto(
  bytes: ArrayBuffer,
  name: string,
  { maxSide = WORKING_SIDE, signal }: DecodeOptions = {},
): Promise<DecodedPhoto> {
  throwIfCancelled(signal);
  if (typeof OffscreenCanvas === 'undefined') throw new Problem('engine unavailable');
  const facts = await readFacts(new Uint8Array(bytes), name);
  throwIfCancelled(signal);
  const { width, height, scale } = workingSize(facts.width, facts.height, maxSide);
  // Chromium stands JPEG and PNG upright but not WebP [measured, 156]; other browsers may. So no browser gets to.
  const turn = facts.format === 'webp' ? facts.orientation : 1;
  const stored = turn >= 5 ? { width: height, height: width } : { width, height };
  const source = turn === 1 ? bytes : withoutWebpExif(new Uint8Array(bytes));
  let bitmap: ImageBitmap;
  try {
    bitmap = await decodeTo(new Blob([source], { type: MIME[facts.format] }), stored.width, stored.height, scale < 1);
  } catch (error) {
    throw new Problem(facts.format === 'heic' ? 'heic unsupported' : 'undecodable picture', undefined, error);
  }
  open += 1;
  try {
    throwIfCancelled(signal);
    const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
    if (!context) throw new Problem('engine unavailable');
    context.fillStyle = '#fff';
    context.fillRect(0, 0, width, height);
    context.imageSmoothingQuality = 'high';
    context.setTransform(...uprightTransform(turn, width, height));
    context.drawImage(bitmap, 0, 0, stored.width, stored.height);
    const { data } = context.getImageData(0, 0, width, height, { colorSpace: 'srgb' });
    return { facts, raster: { width, height, data }, scale };
  } finally {
    bitmap.close();
    open -= 1;
  }
}
