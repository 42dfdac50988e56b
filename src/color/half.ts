/** IEC 60559 binary16. */
function fromHalf(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 31;
  const fraction = bits & 1023;
  if (exponent === 0) return (sign * fraction) / 2 ** 24;
  return sign * 2 ** (exponent - 15) * (1 + fraction / 1024);
}

/** Numbers kept as four hexadecimal digits each: `count` of them from number `from` on. */
export const numbersOfHalves = (hex: string, from: number, count: number): Float32Array =>
  Float32Array.from({ length: count }, (_, k) =>
    fromHalf(Number.parseInt(hex.slice(4 * (from + k), 4 * (from + k + 1)), 16)),
  );
