import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { makeFilm } from './camera-film';
import { SCENE } from './scene';

export default async function globalSetup(): Promise<void> {
  await makeFilm(SCENE.path);
  await promisify(execFile)('npx', ['tsx', join(import.meta.dirname, 'make-read-scene.ts')]);
}
