import type { Job } from '../../../flow';
import { mayLift } from '../../state/may-measure';
import { useOpenJob } from '../../state/use-job';
import { dateTime } from '../../text/numbers';
import { t } from '../../text/t';
import { SafetySteps } from './safety-steps';

/** Before a conductor is lifted: supply off, locked out, absence of voltage verified. Folded away once all are confirmed. */
export function LiftGate({ job }: { readonly job: Job }) {
  const { edit } = useOpenJob();
  if (!mayLift(job))
    return (
      <section className="stack" aria-labelledby="lift">
        <h2 id="lift">{t('screen.safety.lift-title')}</h2>
        <p>{t('screen.safety.lift-again')}</p>
        <SafetySteps job={job} moment="before anything is lifted" by={job.by} />
      </section>
    );
  const proved = job.acknowledgements.find((a) => a.step === 'prove-after');
  return (
    <details className="card">
      <summary>
        {t('screen.safety.lift-done', { by: proved?.by ?? job.by, when: dateTime(proved?.at ?? job.createdAt) })}
      </summary>
      <div className="stack">
        <SafetySteps job={job} moment="before anything is lifted" by={job.by} />
        <p>{t('screen.safety.supply-back-what')}</p>
        <button type="button" className="key" onClick={() => edit({ type: 'supply back' })}>
          {t('screen.safety.supply-back')}
        </button>
      </div>
    </details>
  );
}
