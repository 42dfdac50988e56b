/**
 * IEEE 754 binary16 values, little endian, to float32.
 * @param bytes length a multiple of 2
 */
export function halfToFloat(bytes: Uint8Array): Float32Array {
  const out = new Float32Array(bytes.length >> 1);
  for (let i = 0; i < out.length; i++) out[i] = decode(bytes[2 * i]! | (bytes[2 * i + 1]! << 8));
  return out;
}

function decode(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 31;
  const fraction = bits & 1023;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  if (exponent === 31) return fraction ? Number.NaN : sign * Number.POSITIVE_INFINITY;
  return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}
