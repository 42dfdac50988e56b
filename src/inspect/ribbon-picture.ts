import type { Ribbon } from '../flow';
import type { Picture } from './protocol';

/** Screen pixels for each sample across and along: a conductor a few pixels wide becomes readable. */
const ENLARGE_ACROSS = 6;
const ENLARGE_ALONG = 4;

const encode = (v: number): number => 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

/** Draws a ribbon lying on its side: along it to the right, across it downward, enlarged without smoothing. */
export function ribbonPicture(ribbon: Ribbon): Picture {
  const width = Math.max(1, ribbon.length * ENLARGE_ALONG);
  const height = Math.max(1, ribbon.across * ENLARGE_ACROSS);
  const data = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const cell = Math.floor(x / ENLARGE_ALONG) * ribbon.across + Math.floor(y / ENLARGE_ACROSS);
      const to = (y * width + x) * 4;
      for (let c = 0; c < 3; c++) data[to + c] = encode(ribbon.rgb[cell * 3 + c] ?? 0);
      data[to + 3] = 255;
    }
  return { width, height, data };
}
