import { useState } from 'react';
import { Problem } from '../../../flow';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import type { SampleScene } from '../../services/types';
import { useReading } from '../../state/use-reading';
import { sceneText, sceneTitle } from '../../text/scene-word';
import { t } from '../../text/t';

/** Invented scenes to practice on. */
export function SampleScenes() {
  const { samples } = useServices();
  const { start } = useReading();
  const [problem, setProblem] = useState<Problem | null>(null);
  if (samples.length === 0) return null;

  async function open(scene: SampleScene): Promise<void> {
    try {
      const response = await fetch(scene.url);
      if (!response.ok) throw new Error(`${response.status}`);
      start({ bytes: await response.blob(), name: scene.file, journey: 'map', title: sceneTitle(scene), demo: true });
    } catch (error) {
      setProblem(new Problem('undecodable picture', undefined, error));
    }
  }

  return (
    <section className="stack" aria-labelledby="samples">
      <h2 id="samples">{t('screen.start.samples')}</h2>
      <p className="soft">{t('screen.start.samples-invented')}</p>
      {problem && <ProblemNote problem={problem} />}
      <ul className="samples">
        {samples.map((scene) => (
          <li key={scene.id}>
            <button type="button" className="key sample" onClick={() => void open(scene)}>
              <img src={scene.url} alt="" loading="lazy" decoding="async" />
              <span>
                <b>{sceneTitle(scene)}</b>
                <small>{sceneText(scene)}</small>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
