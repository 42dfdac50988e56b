import { readTag, type TagPlace } from '../../record';

/** A tag of 20 mm in a photo of a panel is still some 80 pixels wide at this size. */
const SIDE = 1200;

/** The place that a printed tag in a photo names; null when there is none. The bitmap it takes is closed here. */
export async function photoTag(photo: Blob): Promise<TagPlace | null> {
  const { default: decodeQR } = await import('qr/decode.js');
  const bitmap = await createImageBitmap(photo);
  try {
    const scale = Math.min(1, SIDE / Math.max(bitmap.width, bitmap.height));
    const width = Math.max(1, Math.round(bitmap.width * scale));
    const height = Math.max(1, Math.round(bitmap.height * scale));
    const context = new OffscreenCanvas(width, height).getContext('2d');
    if (!context) return null;
    context.drawImage(bitmap, 0, 0, width, height);
    const { data } = context.getImageData(0, 0, width, height);
    return readTag(decodeQR({ width, height, data }));
  } catch {
    // The library throws when there is no code in the picture.
    return null;
  } finally {
    bitmap.close();
  }
}
