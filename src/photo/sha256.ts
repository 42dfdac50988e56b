import { Problem } from '../flow';

/**
 * Lower-case hex SHA-256, by the platform's WebCrypto (browser, worker, Node 20).
 * @throws Problem 'engine unavailable' where WebCrypto is missing (a page not served securely).
 */
export async function sha256(bytes: Uint8Array): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  if (!subtle) throw new Problem('engine unavailable');
  const digest = new Uint8Array(await subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>));
  return Array.from(digest, (v) => v.toString(16).padStart(2, '0')).join('');
}
