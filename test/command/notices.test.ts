import { describe, expect, it } from 'vitest';
import { noticesText, type PackageNotice } from '../../src/command/notices-text';

const a: PackageNotice = { name: 'a', version: '1.0.0', licence: 'MIT', text: 'Copyright A\n' };
const b: PackageNotice = { name: 'b', version: '2.0.0', licence: 'MIT', text: '' };
const c: PackageNotice = { name: 'c', version: '3.0.0', licence: 'MIT', text: 'Copyright A\r\n'.replace('\r\n', '\n') };

describe('third-party notices', () => {
  it('names every package once, groups equal texts, and does not depend on order', () => {
    const text = noticesText([c, a, b]);
    for (const name of ['a 1.0.0', 'b 2.0.0', 'c 3.0.0']) expect(text.split(`- ${name} (MIT)`)).toHaveLength(2);
    expect(text.split('Copyright A')).toHaveLength(2);
    expect(text).toContain('ships no licence file');
    expect(noticesText([b, a, c])).toBe(text);
    expect(noticesText([a, b])).not.toBe(text);
  });
});
