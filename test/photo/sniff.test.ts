import { describe, expect, it } from 'vitest';
import { sniffFormat } from '../../src/photo';
import { heicShell, jpeg, movingGif, problemKind, raw } from './samples';

describe('format by first bytes', () => {
  it('tells what sharp writes', async () => {
    const image = await raw(80, 80);
    expect(sniffFormat(await jpeg())).toBe('jpeg');
    expect(sniffFormat(await image.clone().png().toBuffer())).toBe('png');
    expect(sniffFormat(await image.clone().webp().toBuffer())).toBe('webp');
    expect(sniffFormat(await image.clone().avif({ effort: 0 }).toBuffer())).toBe('avif');
    expect(sniffFormat(await movingGif())).toBe('gif');
  });

  it.each(['heic', 'heix', 'mif1', 'msf1', 'hevc'])('takes the %s brand as HEIC', (brand) => {
    expect(sniffFormat(heicShell(brand))).toBe('heic');
  });

  it('is not fooled by a brand that is no picture (twin)', async () => {
    expect(await problemKind(() => sniffFormat(heicShell('mp42').fill('isom', 16, 20)))).not.toBe('no problem');
  });

  it('names what is no picture', async () => {
    expect(await problemKind(() => sniffFormat(new Uint8Array(0)))).toBe('empty file');
    expect(await problemKind(() => sniffFormat(Buffer.from('%PDF-1.7\n')))).toBe('pdf');
    expect(await problemKind(() => sniffFormat(Buffer.from('\n\n%PDF-1.4\n')))).toBe('pdf');
    expect(await problemKind(() => sniffFormat(Buffer.from('phase,color\nA,black\n')))).toBe('not a picture');
    expect(await problemKind(() => sniffFormat(Buffer.from([0xff])))).toBe('not a picture');
  });
});
