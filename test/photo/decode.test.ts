import { converter } from 'culori';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import type { Raster } from '../../src/flow';
import { workingSize } from '../../src/photo';
import { decodePhoto } from '../../src/photo/decode.node';
import { heicShell, jpeg, movingGif, problemKind, raw, withIcc } from './samples';

const at = ({ data, width }: Raster, x: number, y: number): number[] => [
  ...data.subarray((y * width + x) * 4, (y * width + x) * 4 + 4),
];
const nearest = ([r, g, b]: number[]): string => {
  if (Math.min(r as number, g as number, b as number) > 180) return 'white';
  return ['red', 'green', 'blue'][[r, g, b].indexOf(Math.max(r as number, g as number, b as number))] as string;
};
const corners = (raster: Raster): string[] =>
  [
    [0.25, 0.25],
    [0.75, 0.25],
    [0.25, 0.75],
    [0.75, 0.75],
  ].map(([u, v]) =>
    nearest(at(raster, Math.floor((u as number) * raster.width), Math.floor((v as number) * raster.height))),
  );

/** What an upright viewer must show for each EXIF orientation of the quadrant picture (Exif 2.32, tag 274; from memory). */
const UPRIGHT: Record<number, string[]> = {
  1: ['red', 'green', 'blue', 'white'],
  2: ['green', 'red', 'white', 'blue'],
  3: ['white', 'blue', 'green', 'red'],
  4: ['blue', 'white', 'red', 'green'],
  5: ['red', 'blue', 'green', 'white'],
  6: ['blue', 'red', 'white', 'green'],
  7: ['white', 'green', 'blue', 'red'],
  8: ['green', 'white', 'red', 'blue'],
};

describe('decoding in Node', () => {
  it('does not resize at or below the working side and keeps RGBA opaque', async () => {
    const { raster, scale, facts } = await decodePhoto(await jpeg(1600, 900), 'a.jpg');
    expect([raster.width, raster.height, scale, facts.width]).toEqual([1600, 900, 1, 1600]);
    expect(raster.data.length).toBe(1600 * 900 * 4);
    expect(at(raster, 10, 10)[3]).toBe(255);
  });

  it('shrinks to the working side and reports the scale', async () => {
    const { raster, scale } = await decodePhoto(await jpeg(4000, 3000), 'a.jpg');
    expect([raster.width, raster.height, scale]).toEqual([1600, 1200, 0.4]);
    expect(corners(raster)).toEqual(UPRIGHT[1]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])('stands orientation %i upright', async (orientation) => {
    const bytes = await (await raw(400, 300)).withMetadata({ orientation }).jpeg().toBuffer();
    const { raster, facts } = await decodePhoto(bytes, 'a.jpg');
    expect(corners(raster)).toEqual(UPRIGHT[orientation]);
    expect([facts.width, facts.height]).toEqual([raster.width, raster.height]);
    if (orientation !== 1) expect(corners(raster)).not.toEqual(UPRIGHT[1]);
  });

  it('takes Display-P3 to sRGB as the matrices of CSS Color 4 do; reading it as sRGB would fail (twin)', async () => {
    const encoded = [150, 90, 60] as const;
    const p3 = await sharp({ create: { width: 64, height: 64, channels: 3, background: { r: 0, g: 0, b: 0 } } })
      .raw()
      .toBuffer();
    for (let i = 0; i < p3.length; i += 3) p3.set(encoded, i);
    const plain = await sharp(p3, { raw: { width: 64, height: 64, channels: 3 } })
      .png()
      .toBuffer();
    const { raster } = await decodePhoto(await withIcc(plain, 'p3'), 'a.png');
    const want = converter('rgb')({ mode: 'p3', r: 150 / 255, g: 90 / 255, b: 60 / 255 });
    const got = at(raster, 30, 30);
    [want.r, want.g, want.b].forEach((v, k) => {
      expect(Math.abs((got[k] as number) - v * 255)).toBeLessThanOrEqual(2);
    });
    expect(Math.abs((got[0] as number) - encoded[0])).toBeGreaterThan(4);
  });

  it('reads the first frame of a moving GIF', async () => {
    const { raster } = await decodePhoto(await movingGif(), 'a.gif');
    expect(nearest(at(raster, 40, 40))).toBe('red');
    expect(raster.height).toBe(80);
  });

  it('opens gray and 16-bit pictures as RGBA', async () => {
    const gray = await (await raw(200, 100)).grayscale().png().toBuffer();
    const { raster } = await decodePhoto(gray, 'a.png');
    const [r, g, b, a] = at(raster, 10, 10);
    expect([r === g, g === b, a]).toEqual([true, true, 255]);
    const deep = await (await raw(200, 100)).toColourspace('rgb16').png().toBuffer();
    expect(nearest(at((await decodePhoto(deep, 'a.png')).raster, 20, 20))).toBe('red');
  });

  it('says why not', async () => {
    expect(await problemKind(() => decodePhoto(heicShell(), 'a.heic'))).toBe('heic unsupported');
    expect(await problemKind(() => decodePhoto(new Uint8Array(0), 'a'))).toBe('empty file');
    const damaged = await jpeg();
    damaged.fill(0x11, 180, 400);
    expect(['undecodable picture', 'truncated picture']).toContain(
      await problemKind(() => decodePhoto(damaged, 'a.jpg')),
    );
    expect(await problemKind(async () => decodePhoto(await jpeg(), 'a', { signal: AbortSignal.abort() }))).toBe(
      'cancelled',
    );
  });

  it('opens 12 and 50 megapixels', async () => {
    for (const [w, h] of [
      [4000, 3000],
      [8160, 6120],
    ] as const) {
      const big = await sharp({ create: { width: w, height: h, channels: 3, background: '#a52' } })
        .jpeg()
        .toBuffer();
      const { raster, scale } = await decodePhoto(big, 'a.jpg');
      expect(raster.width).toBe(1600);
      expect(scale).toBeCloseTo(1600 / w, 10);
    }
  });
});

describe('working size', () => {
  it('never enlarges and never loses a side', () => {
    expect(workingSize(1600, 1600)).toEqual({ width: 1600, height: 1600, scale: 1 });
    expect(workingSize(16_000, 3)).toEqual({ width: 1600, height: 1, scale: 0.1 });
  });
});
