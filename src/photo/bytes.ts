/** Big- and little-endian reads that say `undefined` past the end instead of throwing: a short file is normal input. */
export const u16be = (b: Uint8Array, at: number): number | undefined =>
  at + 2 <= b.length ? ((b[at] as number) << 8) | (b[at + 1] as number) : undefined;

export const u16le = (b: Uint8Array, at: number): number | undefined =>
  at + 2 <= b.length ? (b[at] as number) | ((b[at + 1] as number) << 8) : undefined;

export const u24le = (b: Uint8Array, at: number): number | undefined =>
  at + 3 <= b.length ? (b[at] as number) | ((b[at + 1] as number) << 8) | ((b[at + 2] as number) << 16) : undefined;

export const u32be = (b: Uint8Array, at: number): number | undefined =>
  at + 4 <= b.length ? (u16be(b, at) as number) * 0x10000 + (u16be(b, at + 2) as number) : undefined;

export const u32le = (b: Uint8Array, at: number): number | undefined =>
  at + 4 <= b.length ? (u16le(b, at) as number) + (u16le(b, at + 2) as number) * 0x10000 : undefined;

/** `length` bytes from `at` as Latin-1 text; shorter at the end of the file. */
export const ascii = (b: Uint8Array, at: number, length: number): string =>
  String.fromCharCode(...b.subarray(at, at + length));
