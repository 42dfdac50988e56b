import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readFacts } from '../../src/photo';
import { withFlashNoted } from '../../src/photo/note-flash';
import { heicShell, jpeg, movingGif, problemKind, raw } from './samples';

describe('facts from the container', () => {
  it.each(['jpeg', 'png', 'webp', 'avif', 'gif'] as const)(
    'reads the size of %s as its encoder wrote it',
    async (format) => {
      const bytes = await (await raw(330, 210)).toFormat(format).toBuffer();
      const facts = await readFacts(bytes, `a.${format}`);
      expect([facts.format, facts.width, facts.height, facts.animated]).toEqual([format, 330, 210, undefined]);
    },
  );

  it('reads lossless WebP and WebP with EXIF', async () => {
    const image = await raw(330, 210);
    expect(await readFacts(await image.clone().webp({ lossless: true }).toBuffer(), 'a')).toMatchObject({
      width: 330,
      height: 210,
    });
    const turned = await image.clone().withMetadata({ orientation: 6 }).webp().toBuffer();
    expect(await readFacts(turned, 'a')).toMatchObject({ width: 210, height: 330, orientation: 6 });
  });

  it('reads progressive JPEG and one with restart markers and a second picture behind it', async () => {
    const progressive = await (await raw(330, 210)).jpeg({ progressive: true }).toBuffer();
    const bytes = Buffer.concat([progressive, await jpeg(80, 80)]);
    expect(await readFacts(bytes, 'a')).toMatchObject({ width: 330, height: 210 });
  });

  it('swaps the sides of a HEIC photo turned in its container', async () => {
    expect(await readFacts(heicShell(), 'a.heic')).toMatchObject({ format: 'heic', width: 3024, height: 4032 });
  });

  it('hashes as Node hashes; one changed bit changes it (twin)', async () => {
    const bytes = await jpeg();
    const expected = createHash('sha256').update(bytes).digest('hex');
    expect((await readFacts(bytes, 'a')).sha256).toBe(expected);
    bytes[bytes.length - 40] = (bytes[bytes.length - 40] as number) ^ 4;
    expect((await readFacts(bytes, 'a')).sha256).not.toBe(expected);
  });

  it('says that a GIF moves', async () => {
    expect((await readFacts(await movingGif(), 'a.gif')).animated).toBe(true);
  });

  it('reads EXIF', async () => {
    const bytes = await (await raw(400, 300))
      .withMetadata({ orientation: 8 })
      .withExifMerge({
        IFD0: { Make: 'Invented', Model: 'Box 1' },
        IFD2: {
          DateTimeOriginal: '2026:03:04 05:06:07',
          OffsetTimeOriginal: '-05:00',
          ExposureTime: '1/30',
          Flash: '16',
          ISOSpeedRatings: '800',
        },
      })
      .jpeg()
      .toBuffer();
    expect(await readFacts(bytes, 'a')).toMatchObject({
      takenAt: '2026-03-04T05:06:07-05:00',
      camera: 'Invented Box 1',
      flashFired: false,
      iso: 800,
      orientation: 8,
      width: 300,
      height: 400,
    });
    expect((await readFacts(bytes, 'a')).exposureTime).toBeCloseTo(1 / 30, 4);
  });

  it('reads the note that our own frames carry when the torch was on, with the picture unchanged', async () => {
    const plain = await jpeg();
    const noted = Buffer.from(withFlashNoted(Uint8Array.from(plain).buffer));
    expect((await readFacts(noted, 'a')).flashFired).toBe(true);
    const pixels = (bytes: Buffer): Promise<Buffer> => sharp(bytes).raw().toBuffer();
    expect((await pixels(noted)).equals(await pixels(plain))).toBe(true);
    // Twin: without the note nothing is said; with bit 0 off the flash did not fire.
    expect((await readFacts(plain, 'a')).flashFired).toBeUndefined();
    const off = Buffer.from(noted);
    off[off.indexOf(Buffer.from([0x92, 0x09])) + 9] = 0x10;
    expect((await readFacts(off, 'a')).flashFired).toBe(false);
  });

  it('shrugs off damaged EXIF', async () => {
    const bytes = await (await raw(400, 300)).withMetadata({ orientation: 6 }).jpeg().toBuffer();
    const at = bytes.indexOf('Exif\0\0') + 6;
    bytes.fill(0xee, at, at + 12);
    expect(await readFacts(bytes, 'a')).toMatchObject({ orientation: 1, width: 400 });
  });
});

describe('files that cannot be read', () => {
  it.each(['jpeg', 'png', 'webp', 'avif', 'gif'] as const)('finds a cut-off %s, wherever it is cut', async (format) => {
    const bytes = await (await raw(330, 210)).toFormat(format).toBuffer();
    for (const share of [0.5, 0.8, 0.97]) {
      const cut = bytes.subarray(0, Math.floor(bytes.length * share));
      expect(await problemKind(() => readFacts(cut, 'a')), `${format} ${share}`).toBe('truncated picture');
    }
    expect(await problemKind(() => readFacts(bytes, 'a'))).toBe('no problem');
  });

  it('finds a JPEG whose rest is zeros, as an unfinished copy leaves it', async () => {
    const bytes = await jpeg();
    bytes.fill(0, Math.floor(bytes.length / 2));
    expect(await problemKind(() => readFacts(bytes, 'a'))).toBe('truncated picture');
  });

  it('refuses 1 x 1 and a 30,000 pixel panorama by size, before decoding', async () => {
    expect(await problemKind(async () => readFacts(await jpeg(1, 1), 'a'))).toBe('picture too small');
    const panorama = await (await raw(30_000, 80)).png().toBuffer();
    expect(await problemKind(() => readFacts(panorama, 'a'))).toBe('picture too large');
  });

  it('refuses a header that promises a gigapixel (a decompression bomb)', async () => {
    const bytes = await (await raw(80, 80)).png().toBuffer();
    bytes.writeUInt32BE(16_000, 16);
    bytes.writeUInt32BE(16_000, 20);
    expect(await problemKind(() => readFacts(bytes, 'a'))).toBe('picture too large');
  });
});
