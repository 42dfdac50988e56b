import { crc32, deflateSync } from 'node:zlib';
import sharp, { type Sharp } from 'sharp';

/** Four quadrants: red, green, blue, white (row by row), so that turns and mirrors show. */
export async function quadrants(width: number, height: number): Promise<Buffer> {
  const data = Buffer.alloc(width * height * 3);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const q = (y < height / 2 ? 0 : 2) + (x < width / 2 ? 0 : 1);
      const rgb = [
        [200, 20, 20],
        [20, 160, 40],
        [20, 40, 200],
        [230, 230, 230],
      ][q] as number[];
      data.set(rgb, (y * width + x) * 3);
    }
  }
  return data;
}

export const raw = async (width: number, height: number): Promise<Sharp> =>
  sharp(await quadrants(width, height), { raw: { width, height, channels: 3 } });

export const jpeg = async (width = 400, height = 300): Promise<Buffer> =>
  (await raw(width, height)).jpeg({ quality: 95, chromaSubsampling: '4:4:4' }).toBuffer();

/** Moving GIF of two frames of one color each: red, then blue. */
export async function movingGif(width = 80, height = 80): Promise<Buffer> {
  const data = Buffer.alloc(width * height * 2 * 3);
  for (let i = 0; i < width * height * 2; i++) data.set(i < width * height ? [200, 20, 20] : [20, 40, 200], i * 3);
  return sharp(data, { raw: { width, height: height * 2, channels: 3, pageHeight: height } })
    .gif({ delay: [100, 100] })
    .toBuffer();
}

/** A box of ISO/IEC 14496-12. */
export function box(type: string, ...parts: (Buffer | string)[]): Buffer {
  const body = Buffer.concat(parts.map((p) => (typeof p === 'string' ? Buffer.from(p, 'latin1') : p)));
  const head = Buffer.alloc(8);
  head.writeUInt32BE(body.length + 8, 0);
  head.write(type, 4, 'latin1');
  return Buffer.concat([head, body]);
}

const u32 = (...values: number[]): Buffer => {
  const b = Buffer.alloc(values.length * 4);
  values.forEach((v, i) => {
    b.writeUInt32BE(v, i * 4);
  });
  return b;
};

/** The container of a HEIC photo, 4032 x 3024 turned by a quarter, without picture data. */
export const heicShell = (brand = 'heic'): Buffer =>
  Buffer.concat([
    box('ftyp', brand, u32(0), 'mif1', brand),
    box('meta', u32(0), box('iprp', box('ipco', box('ispe', u32(0, 4032, 3024)), box('irot', Buffer.from([1]))))),
    box('mdat', Buffer.alloc(64)),
  ]);

export async function problemKind(run: () => unknown): Promise<string> {
  try {
    await run();
  } catch (error) {
    return (error as { kind?: string }).kind ?? String(error);
  }
  return 'no problem';
}

/** A PNG that carries one of sharp's own color profiles with its pixels untouched: an iCCP chunk behind IHDR. */
export async function withIcc(png: Buffer, name: 'p3'): Promise<Buffer> {
  const black = sharp({ create: { width: 8, height: 8, channels: 3, background: '#000' } });
  const { icc } = await sharp(await black.withIccProfile(name).png().toBuffer()).metadata();
  const body = Buffer.concat([Buffer.from(`iCCP${name}\0\0`, 'latin1'), deflateSync(icc as Buffer)]);
  const chunk = Buffer.alloc(body.length + 8);
  chunk.writeUInt32BE(body.length - 4, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), body.length + 4);
  return Buffer.concat([png.subarray(0, 33), chunk, png.subarray(33)]);
}
