import type { SampleScene } from '../services/types';
import { say } from './say';

/** The words of a practice scene; one that the catalogue does not know yet keeps those of its manifest. */
const word = (scene: SampleScene, part: 'title' | 'text', otherwise: string): string => {
  const code = `screen.sample.${scene.id}.${part}`;
  const said = say({ code });
  return said === code ? otherwise : said;
};

export const sceneTitle = (scene: SampleScene): string => word(scene, 'title', scene.title);

export const sceneText = (scene: SampleScene): string => word(scene, 'text', scene.description);
