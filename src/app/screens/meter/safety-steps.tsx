import type { Job } from '../../../flow';
import { SAFETY_STEPS, type StepMoment, unacknowledged } from '../../../verify';
import { useServices } from '../../services/context';
import { useOpenJob } from '../../state/use-job';
import { dateTime } from '../../text/numbers';
import { say } from '../../text/say';
import { t } from '../../text/t';

interface SafetyStepsProps {
  readonly job: Job;
  readonly moment: StepMoment;
  /** Who confirms; without a name nothing can be confirmed. */
  readonly by: string;
}

/** The safety steps of one moment, each to be confirmed by hand and in order, with who did and when. */
export function SafetySteps({ job, moment, by }: SafetyStepsProps) {
  const { edit } = useOpenJob();
  const { now } = useServices();
  const missing = unacknowledged(moment, job.acknowledgements).map((s) => s.id);
  return (
    <fieldset className="stack" disabled={by === ''}>
      <legend>{t('screen.safety.steps')}</legend>
      <p className="soft">{t('screen.safety.in-order')}</p>
      {SAFETY_STEPS.filter((s) => s.moment === moment).map((step) => {
        const done = !missing.includes(step.id);
        const said = done ? job.acknowledgements.find((a) => a.step === step.id) : undefined;
        return (
          <label key={step.id} className="tick">
            <input
              type="checkbox"
              checked={done}
              disabled={!done && step.id !== missing[0]}
              onChange={(e) =>
                edit(
                  e.target.checked
                    ? { type: 'acknowledge', acknowledgement: { step: step.id, by, at: now() } }
                    : { type: 'withdraw', step: step.id },
                )
              }
            />
            <span>
              {say(step.text)}
              {said && (
                <small className="soft block">
                  {t('screen.safety.confirmed', { by: said.by, when: dateTime(said.at) })}
                </small>
              )}
            </span>
          </label>
        );
      })}
      <p role="status">{t('screen.safety.missing', { count: missing.length })}</p>
    </fieldset>
  );
}
