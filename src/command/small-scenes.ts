import { mkdir, readFile } from 'node:fs/promises';
import sharp from 'sharp';

/**
 * Small pictures of the practice scenes for the start screen, which would otherwise load a megabyte of photographs that
 * nobody has asked for yet. 480 pixels are twice the width they are shown at on a phone.
 */
const SCENES = new URL('../../sample-images/', import.meta.url);
const WIDTH = 480;
const HEIGHT = 270;

const manifest = JSON.parse(await readFile(new URL('manifest.json', SCENES), 'utf8')) as {
  readonly scenes: readonly { readonly file: string }[];
};
await mkdir(new URL('small/', SCENES), { recursive: true });
for (const { file } of manifest.scenes) {
  await sharp(new URL(file, SCENES).pathname)
    .resize(WIDTH, HEIGHT, { fit: 'cover' })
    .jpeg({ quality: 70, mozjpeg: true })
    .toFile(new URL(`small/${file}`, SCENES).pathname);
}
