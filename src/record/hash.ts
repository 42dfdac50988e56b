import { Problem } from '../flow';
import { canonical } from './canonical';

/**
 * Lower-case hex SHA-256 by the platform's WebCrypto. The photo room has the same few lines: the record must not
 * load the photo room's decoders to take a hash.
 * @throws Problem 'storage unavailable' where WebCrypto is missing (a page not served securely).
 */
export async function hashBytes(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  if (!subtle) throw new Problem('storage unavailable');
  const digest = new Uint8Array(await subtle.digest('SHA-256', bytes));
  return Array.from(digest, (v) => v.toString(16).padStart(2, '0')).join('');
}

/** Hash of a plain value by its canonical text. */
export const hashValue = (value: unknown): Promise<string> => hashBytes(new TextEncoder().encode(canonical(value)));
