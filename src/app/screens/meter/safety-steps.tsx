import type { Job } from '../../../flow';
import { SAFETY_STEPS, type StepMoment, unacknowledged } from '../../../verify';
import { useServices } from '../../services/context';
import { useOpenJob } from '../../state/use-job';
import { say } from '../../text/say';
import { t } from '../../text/t';

interface SafetyStepsProps {
  readonly job: Job;
  readonly moment: StepMoment;
  /** Who confirms; without a name nothing can be confirmed. */
  readonly by: string;
}

/** The safety steps of one moment, each to be confirmed by hand. */
export function SafetySteps({ job, moment, by }: SafetyStepsProps) {
  const { edit } = useOpenJob();
  const { now } = useServices();
  const missing = new Set(unacknowledged(moment, job.acknowledgements).map((s) => s.id));
  return (
    <fieldset className="stack" disabled={by === ''}>
      <legend>{t('screen.safety.steps')}</legend>
      {SAFETY_STEPS.filter((s) => s.moment === moment).map((step) => (
        <label key={step.id} className="tick">
          <input
            type="checkbox"
            checked={!missing.has(step.id)}
            onChange={(e) =>
              edit(
                e.target.checked
                  ? { type: 'acknowledge', acknowledgement: { step: step.id, by, at: now() } }
                  : { type: 'withdraw', step: step.id },
              )
            }
          />
          <span>{say(step.text)}</span>
        </label>
      ))}
      <p role="status">{t('screen.safety.missing', { count: missing.size })}</p>
    </fieldset>
  );
}
