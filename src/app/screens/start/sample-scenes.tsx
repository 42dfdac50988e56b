import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { usePractice } from '../../state/use-practice';
import { sceneText, sceneTitle } from '../../text/scene-word';
import { t } from '../../text/t';

/** Invented scenes to practice on. */
export function SampleScenes() {
  const { samples } = useServices();
  const { open, problem } = usePractice();
  if (samples.length === 0) return null;
  return (
    <section className="stack" aria-labelledby="samples">
      <h2 id="samples">{t('screen.start.samples')}</h2>
      <p className="soft">{t('screen.start.samples-invented')}</p>
      {problem && <ProblemNote problem={problem} />}
      <ul className="samples">
        {samples.map((scene) => (
          <li key={scene.id}>
            <button type="button" className="key sample" onClick={() => open(scene)}>
              <img src={scene.small} alt="" loading="lazy" decoding="async" />
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
