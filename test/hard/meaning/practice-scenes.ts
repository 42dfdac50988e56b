import { readFileSync } from 'node:fs';
import type { Point } from '../../../src/flow';
import type { Labelled } from './read-changed';

interface Scene {
  readonly file: string;
  readonly conductors: readonly {
    readonly color: string | null;
    readonly stripe: string | null;
    readonly points: readonly Point[];
  }[];
}

/** The invented scenes with the names of what was drawn. */
export function practiceScenes(): Labelled[] {
  const folder = new URL('../../../sample-images/', import.meta.url);
  const { scenes } = JSON.parse(readFileSync(new URL('manifest.json', folder), 'utf8')) as { scenes: Scene[] };
  return scenes.map(({ file, conductors }) => ({
    file,
    bytes: readFileSync(new URL(file, folder)),
    places: conductors.flatMap(({ color, stripe, points }) =>
      points.map((at) => ({
        at,
        truth: color === null ? 'bare' : color === 'green' && stripe === 'yellow' ? 'green-yellow' : color,
      })),
    ),
  }));
}
