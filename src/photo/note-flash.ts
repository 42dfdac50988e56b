/**
 * EXIF that says nothing but that the flash fired: Exif 2.32 (CIPA DC-008), from memory. APP1 with "Exif", a big-endian
 * TIFF, a first directory that points (0x8769) to the second, and there Flash (0x9209, SHORT) with bit 0 set.
 */
const SEGMENT = [
  ...[0xff, 0xe1, 0, 52],
  ...[0x45, 0x78, 0x69, 0x66, 0, 0],
  ...[0x4d, 0x4d, 0, 42, 0, 0, 0, 8],
  ...[0, 1, 0x87, 0x69, 0, 4, 0, 0, 0, 1, 0, 0, 0, 26, 0, 0, 0, 0],
  ...[0, 1, 0x92, 0x09, 0, 3, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0],
];

/**
 * A JPEG of our own making, with a note that the camera's own light was on: a photo carries with it what it was lit by.
 * The bytes must begin with the start marker and hold no EXIF yet.
 */
export function withFlashNoted(jpeg: ArrayBuffer): ArrayBuffer {
  const from = new Uint8Array(jpeg);
  const out = new Uint8Array(from.length + SEGMENT.length);
  out.set(from.subarray(0, 2));
  out.set(SEGMENT, 2);
  out.set(from.subarray(2), 2 + SEGMENT.length);
  return out.buffer;
}
