import { useState } from 'react';
import type { Job, Problem } from '../../../flow';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { toProblem } from '../../state/to-problem';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';

/** Deletes the job from the device. The only step that cannot be undone, so it asks. */
export function RemoveJob({ job, onRemoved }: { readonly job: Job; readonly onRemoved: () => void }) {
  const { store } = useServices();
  const { close } = useOpenJob();
  const [asking, setAsking] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const remove = (): void => {
    store.remove(job.id).then(
      () => {
        onRemoved();
        close();
      },
      (error: unknown) => setProblem(toProblem(error)),
    );
  };
  if (!asking) {
    return (
      <button type="button" className="key" onClick={() => setAsking(true)}>
        {t('screen.remove-job.ask')}
      </button>
    );
  }
  return (
    <div className="note danger stack" role="alertdialog" aria-label={t('screen.remove-job.ask')}>
      <p>{t('screen.remove-job.warn')}</p>
      <div className="row">
        <button type="button" className="key" onClick={() => setAsking(false)}>
          {t('screen.remove-job.keep')}
        </button>
        <button type="button" className="key" onClick={remove}>
          {t('screen.remove-job.remove')}
        </button>
      </div>
      {problem && <ProblemNote problem={problem} />}
    </div>
  );
}
