import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const SAMPLES = join(import.meta.dirname, '../../sample-images');

interface Manifest {
  readonly scenes: readonly { readonly file: string; readonly title: string }[];
}

const manifest = JSON.parse(readFileSync(join(SAMPLES, 'manifest.json'), 'utf8')) as Manifest;
const [first] = manifest.scenes;
if (!first) throw new Error('sample-images/manifest.json has no scene');

/** The invented scene that the browser tests read: the first of the sample scenes. */
export const SCENE = { path: join(SAMPLES, first.file), title: first.title };
