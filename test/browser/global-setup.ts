import { makeFilm } from './camera-film';
import { SCENE } from './scene';

export default async function globalSetup(): Promise<void> {
  await makeFilm(SCENE.path);
}
