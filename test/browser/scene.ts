import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const SAMPLES = join(import.meta.dirname, '../../sample-images');

interface Manifest {
  readonly scenes: readonly { readonly file: string; readonly title: string }[];
}

const manifest = JSON.parse(readFileSync(join(SAMPLES, 'manifest.json'), 'utf8')) as Manifest;
/** One plain system: planning stays quick on two cores. */
const scene = manifest.scenes.find((s) => s.file === 'gutter-208y120.jpg');
if (!scene) throw new Error('sample-images/manifest.json does not have the scene of the browser tests');

/** The invented scene that the browser tests read. */
export const SCENE = { path: join(SAMPLES, scene.file), title: scene.title };
