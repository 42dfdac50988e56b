import { useId, useState } from 'react';
import type { Job } from '../../../flow';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';
import { MeterFields } from './meter-fields';
import { SafetySteps } from './safety-steps';

/** Before any reading: who measures, with what, and each safety step acknowledged by hand. */
export function SafetyGate({ job, locked }: { readonly job: Job; readonly locked: boolean }) {
  if (locked) return <GateFields job={job} />;
  return (
    <details className="card">
      <summary>{t('screen.safety.done', { by: job.by })}</summary>
      <GateFields job={job} />
    </details>
  );
}

function GateFields({ job }: { readonly job: Job }) {
  const { edit } = useOpenJob();
  const [by, setBy] = useState(job.by);
  const id = useId();
  return (
    <section className="stack" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{t('screen.safety.title')}</h2>
      <p className="note danger">{t('screen.safety.never-live')}</p>
      <label className="field" htmlFor={`${id}-by`}>
        <span>{t('screen.safety.who')}</span>
        <input
          id={`${id}-by`}
          type="text"
          autoComplete="name"
          value={by}
          onChange={(e) => setBy(e.target.value)}
          onBlur={() => edit({ type: 'by', by: by.trim() })}
        />
      </label>
      <MeterFields meter={job.meter} onChange={(meter) => edit({ type: 'meter', meter })} />
      <SafetySteps job={job} moment="before any reading" by={by.trim()} />
    </section>
  );
}
