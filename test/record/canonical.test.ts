import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { hashValue } from '../../src/record';
import { canonical } from '../../src/record/canonical';

describe('canonical JSON', () => {
  it('writes the example of RFC 8785 section 3.2.2 as section 3.2.3 sorts it (from memory)', () => {
    const value = {
      numbers: [Number('333333333.33333329'), 1e30, 4.5, 2e-3, 1e-27],
      string: '\u20ac$\u000F\u000aA\'\u0042\u0022\u005c\\"/',
      literals: [null, true, false],
    };
    expect(canonical(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  it('sorts keys by UTF-16 code unit, whatever order they were set in', () => {
    expect(canonical({ b: 1, a: { d: undefined, c: 2 }, B: 3 })).toBe('{"B":3,"a":{"c":2},"b":1}');
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, new Map(), () => 0, 1n])(
    'refuses %s, which would not come back',
    (value) => {
      expect(() => canonical({ value })).toThrow('save not verified');
    },
  );

  it("hashes as Node's own SHA-256 of that text; another text hashes otherwise (twin)", async () => {
    const text = '{"a":1}';
    expect(await hashValue({ a: 1 })).toBe(createHash('sha256').update(text).digest('hex'));
    expect(await hashValue({ a: 2 })).not.toBe(createHash('sha256').update(text).digest('hex'));
    // FIPS 180-2, appendix B.1: the digest of "abc", quoted here inside JSON, is another text: kept as a check of the platform.
    expect(createHash('sha256').update('abc').digest('hex')).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
  });
});
