import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { readNaively } from './naive';

interface Index {
  readonly images: readonly {
    readonly file: string;
    readonly points?: readonly { readonly x: number; readonly y: number; readonly color: string }[];
    readonly background?: readonly { readonly x: number; readonly y: number }[];
  }[];
}

/** What the naive way scores on labelled photos; the program's own scores come from `npm run measure`. */
export async function naiveScores(index: string): Promise<Record<string, string>> {
  const { images } = JSON.parse(await readFile(index, 'utf8')) as Index;
  const tally = { points: 0, found: 0, named: 0, background: 0, hit: 0 };
  for (const { file, points = [], background = [] } of images) {
    const reading = await readNaively(await readFile(join(dirname(index), file)));
    for (const { x, y, color } of points) {
      const part = reading.partAt(x, y);
      tally.points++;
      if (part) tally.found++;
      if (part?.name === color) tally.named++;
    }
    for (const { x, y } of background) {
      tally.background++;
      if (reading.partAt(x, y)) tally.hit++;
    }
  }
  const share = (part: number, all: number): string => `${((100 * part) / all).toFixed(1)} % of ${all}`;
  return {
    'points on conductors found': share(tally.found, tally.points),
    'named rightly': share(tally.named, tally.points),
    'points on no conductor hit': share(tally.hit, tally.background),
  };
}
