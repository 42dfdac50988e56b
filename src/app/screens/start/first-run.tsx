import { useSyncExternalStore } from 'react';
import { Icon } from '../../parts/icon';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { guideDone, onGuide, startGuide } from '../../state/guide';
import { usePractice } from '../../state/use-practice';
import { t } from '../../text/t';

/** One plain system in one color habit: nothing in it needs explaining twice. */
const FIRST = 'gutter-208y120';

/** Offered until it was walked or closed once: the whole way on an invented scene, in under a minute. */
export function FirstRun() {
  const { samples } = useServices();
  const { open, problem } = usePractice();
  const done = useSyncExternalStore(onGuide, guideDone);
  const scene = samples.find((s) => s.id === FIRST) ?? samples[0];
  if (done || !scene) return null;
  return (
    <section className="guide stack" aria-labelledby="first-run">
      <h2 id="first-run">{t('screen.guide.first')}</h2>
      <p>{t('screen.guide.first-text')}</p>
      {problem && <ProblemNote problem={problem} />}
      <button
        type="button"
        className="key"
        onClick={() => {
          startGuide();
          open(scene);
        }}
      >
        {t('screen.guide.start')}
        <Icon name="open" />
      </button>
    </section>
  );
}
