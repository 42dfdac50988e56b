import { between, pick } from '../random';

const LENGTHS = [0, 1, 2, 4, 7, 8, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff];

/** Some damage that files suffer by accident or on purpose; one to four kinds at once. */
export function mutateBytes(random: () => number, original: Uint8Array, others: readonly Uint8Array[]): Uint8Array {
  let bytes: Uint8Array = original.slice();
  for (let k = between(random, 1, 4); k > 0; k--) bytes = one(random, bytes, others);
  return bytes;
}

function one(random: () => number, bytes: Uint8Array, others: readonly Uint8Array[]): Uint8Array {
  const at = between(random, 0, Math.max(0, bytes.length - 1));
  // Headers are short and matter most: half of all damage is done to the first hundred bytes.
  const early = Math.min(at, random() < 0.5 ? between(random, 0, 100) : at);
  const out = bytes.slice();
  switch (between(random, 0, 8)) {
    case 0: {
      out[early] = between(random, 0, 255);
      return out;
    }
    case 1: {
      out[early]! ^= 1 << between(random, 0, 7);
      return out;
    }
    case 2:
      return out.subarray(0, at);
    case 3: {
      const until = Math.min(bytes.length, at + between(random, 1, 64));
      return Uint8Array.from([...bytes.subarray(0, at), ...bytes.subarray(until)]);
    }
    case 4: {
      const part = bytes.subarray(at, at + between(random, 1, 256));
      return Uint8Array.from([...bytes.subarray(0, early), ...part, ...bytes.subarray(early)]);
    }
    case 5: {
      const other = pick(random, others);
      const from = between(random, 0, other.length - 1);
      return Uint8Array.from([...bytes.subarray(0, at), ...other.subarray(from)]);
    }
    case 6: {
      const value = pick(random, LENGTHS);
      out[early] = value >> 8;
      if (early + 1 < out.length) out[early + 1] = value & 255;
      return out;
    }
    case 7: {
      for (let k = 0; k < 4 && early + k < out.length; k++) out[early + k] = random() < 0.5 ? 255 : 0;
      return out;
    }
    default:
      return Uint8Array.from([
        ...bytes,
        ...Array.from({ length: between(random, 1, 64) }, () => between(random, 0, 255)),
      ]);
  }
}
