import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import sharp from 'sharp';

/** Where Chromium's fake camera finds its film; made anew before each run. */
export const FILM = join(import.meta.dirname, '../../node_modules/.cache/hueproof/camera.y4m');

const WIDTH = 1280;
const HEIGHT = 720;

/**
 * A film of one still picture for `--use-file-for-fake-video-capture`: Y4M, 4:2:0, BT.601, video range (ITU-R BT.601:
 * luma 16 to 235, chroma 16 to 240). Chromium reads other matrices 15 to 20 levels off.
 */
export async function makeFilm(picture: string, film = FILM): Promise<void> {
  const { data } = await sharp(picture)
    .resize(WIDTH, HEIGHT, { fit: 'cover' })
    .removeAlpha()
    .toColorspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const luma = Buffer.alloc(WIDTH * HEIGHT);
  const blue = Buffer.alloc(luma.length / 4);
  const red = Buffer.alloc(luma.length / 4);
  for (let y = 0; y < HEIGHT; y += 2) {
    for (let x = 0; x < WIDTH; x += 2) {
      const mean = [0, 0, 0];
      for (const at of [y * WIDTH + x, y * WIDTH + x + 1, (y + 1) * WIDTH + x, (y + 1) * WIDTH + x + 1]) {
        const [r = 0, g = 0, b = 0] = data.subarray(at * 3, at * 3 + 3);
        luma[at] = Math.round(16 + (219 / 255) * (0.299 * r + 0.587 * g + 0.114 * b));
        for (const [k, v] of [r, g, b].entries()) mean[k] = (mean[k] ?? 0) + v / 4;
      }
      const [r = 0, g = 0, b = 0] = mean;
      const at = (y / 2) * (WIDTH / 2) + x / 2;
      blue[at] = Math.round(128 + (224 / 255) * (-0.168736 * r - 0.331264 * g + 0.5 * b));
      red[at] = Math.round(128 + (224 / 255) * (0.5 * r - 0.418688 * g - 0.081312 * b));
    }
  }
  const frame = Buffer.concat([Buffer.from('FRAME\n'), luma, blue, red]);
  await mkdir(dirname(film), { recursive: true });
  await writeFile(
    film,
    Buffer.concat([Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`), frame, frame]),
  );
}
