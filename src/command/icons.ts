import { readFile } from 'node:fs/promises';
import sharp from 'sharp';

/**
 * Draws the icons of the installed app from public/icon.svg: with round corners, and to the edge for devices that cut
 * their own shape. The drawing is a band through the middle, so that no cut takes anything from it.
 */
const PUBLIC = new URL('../../public/', import.meta.url);
const ROUND = 0.18;

async function draw(name: string, size: number, round: number): Promise<void> {
  const svg = await readFile(new URL('icon.svg', PUBLIC));
  const corner = size * round;
  const shape = `<svg width="${size}" height="${size}"><rect width="${size}" height="${size}" rx="${corner}"/></svg>`;
  const drawn = sharp(svg, { density: (72 * size) / 32 }).resize(size, size);
  const cut = round > 0 ? drawn.composite([{ input: Buffer.from(shape), blend: 'dest-in' }]) : drawn.removeAlpha();
  await cut.png({ compressionLevel: 9, palette: true }).toFile(new URL(`icons/${name}.png`, PUBLIC).pathname);
}

await draw('icon-192', 192, ROUND);
await draw('icon-512', 512, ROUND);
await draw('maskable-512', 512, 0);
