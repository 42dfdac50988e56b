import { Problem } from '../flow';

/**
 * The one text form of a JSON value that hashes are taken of: keys sorted by UTF-16 code unit, no blanks, numbers
 * and strings as ECMAScript writes them (RFC 8785, from memory). Properties that are undefined are left out.
 * @throws Problem 'save not verified' for NaN, infinities and what JSON cannot hold: they would not come back.
 */
export function canonical(value: unknown): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number' && Number.isFinite(value)) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map((each) => canonical(each)).join(',')}]`;
  if (typeof value === 'object' && isPlain(value)) {
    const record = value as Record<string, unknown>;
    const keys = Object.keys(record).filter((key) => record[key] !== undefined);
    return `{${keys
      .sort()
      .map((key) => `${JSON.stringify(key)}:${canonical(record[key])}`)
      .join(',')}}`;
  }
  throw new Problem('save not verified', undefined, new TypeError(`no JSON form: ${String(value)}`));
}

function isPlain(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || Object.getPrototypeOf(prototype as object) === null;
}
