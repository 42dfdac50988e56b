const CHUNK = 0x6000;

/** Base64 (RFC 4648, section 4) of bytes, in pieces so that a large photo needs no argument list of its length. */
export function toBase64(bytes: Uint8Array): string {
  let out = '';
  for (let at = 0; at < bytes.length; at += CHUNK) out += btoa(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  return out;
}

/** Undefined when the text is not Base64. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> | undefined {
  try {
    return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  } catch {
    return undefined;
  }
}
