import type { Job } from '../../../flow';
import { t } from '../../text/t';
import { SafetySteps } from './safety-steps';

/** Before a conductor is lifted: supply off, locked out, absence of voltage verified. */
export function LiftGate({ job }: { readonly job: Job }) {
  return (
    <section className="stack" aria-labelledby="lift">
      <h2 id="lift">{t('screen.safety.lift-title')}</h2>
      <SafetySteps job={job} moment="before anything is lifted" by={job.by} />
    </section>
  );
}
