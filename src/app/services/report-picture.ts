/** Longest side of a picture in the report, pixels. */
const SIDE = 900;

/** An upright JPEG of a photo for the report. The bitmap it takes is closed here. */
export async function reportPicture(photo: Blob): Promise<Uint8Array> {
  const bitmap = await createImageBitmap(photo);
  try {
    const scale = Math.min(1, SIDE / Math.max(bitmap.width, bitmap.height));
    const canvas = new OffscreenCanvas(
      Math.max(1, Math.round(bitmap.width * scale)),
      Math.max(1, Math.round(bitmap.height * scale)),
    );
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    const small = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.72 });
    return new Uint8Array(await small.arrayBuffer());
  } finally {
    bitmap.close();
  }
}
