import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';

interface Scene {
  readonly file: string;
  readonly width: number;
  readonly height: number;
  readonly conductors: readonly { readonly color: string | null; readonly points: readonly (readonly number[])[] }[];
}

const SAMPLES = new URL('../../../sample-images/', import.meta.url);

/** Pixels cut off at each side, and steps of shift and quality: together every photo has bytes of its own. */
const MARGIN = 12;
const SHIFTS = 25;
const QUALITIES = 14;

/**
 * A turnover of `count` photos below `folder`: variants of the practice scenes, shifted and compressed anew so that no
 * two have the same bytes, and a schedule with a panel a photo and a line a conductor. Everything in it is invented.
 * @returns terminations of the schedule.
 */
export async function makeTurnover(folder: string, count: number): Promise<number> {
  const { scenes } = JSON.parse(await readFile(new URL('manifest.json', SAMPLES), 'utf8')) as { scenes: Scene[] };
  await mkdir(join(folder, 'photos'), { recursive: true });
  const rows = ['Panel,Circuit,Poles,Color,Load,Photo'];
  for (let k = 0; k < count; k++) {
    const scene = scenes[k % scenes.length] as Scene;
    const name = `IMG_${String(k + 1).padStart(4, '0')}.jpg`;
    const shift = Math.floor(k / scenes.length) % SHIFTS;
    const picture = await sharp(await readFile(new URL(scene.file, SAMPLES)))
      .extract({
        left: shift % MARGIN,
        top: Math.floor(shift / MARGIN) * 5,
        width: scene.width - MARGIN,
        height: scene.height - MARGIN,
      })
      .jpeg({ quality: 80 + (k % QUALITIES) })
      .toBuffer();
    await writeFile(join(folder, 'photos', name), picture);
    const panel = `P${String(k + 1).padStart(3, '0')}`;
    for (const [n, { color }] of scene.conductors.entries())
      rows.push(`${panel},${n + 1},1,${color ?? ''},Invented load ${n + 1},${name}`);
  }
  await writeFile(join(folder, 'schedule.csv'), rows.join('\r\n'));
  return rows.length - 1;
}
