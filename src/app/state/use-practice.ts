import { useState } from 'react';
import { Problem } from '../../flow';
import type { SampleScene } from '../services/types';
import { sceneTitle } from '../text/scene-word';
import { useReading } from './use-reading';

export interface Practice {
  readonly open: (scene: SampleScene) => void;
  readonly problem: Problem | null;
}

/** Opens a practice scene as a job of its own, marked as invented. */
export function usePractice(): Practice {
  const { start } = useReading();
  const [problem, setProblem] = useState<Problem | null>(null);
  async function fetchScene(scene: SampleScene): Promise<void> {
    try {
      const response = await fetch(scene.url);
      if (!response.ok) throw new Error(`${response.status}`);
      const bytes = await response.blob();
      start({ bytes, name: scene.file, journey: 'map', title: sceneTitle(scene), demo: true });
    } catch (error) {
      setProblem(new Problem('undecodable picture', undefined, error));
    }
  }
  return { open: (scene) => void fetchScene(scene), problem };
}
