import { useId, useState } from 'react';
import type { Job } from '../../../flow';
import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';
import { MeterFields } from './meter-fields';
import { PlaceFields } from './place-fields';
import { SafetySteps } from './safety-steps';

interface SafetyGateProps {
  readonly job: Job;
  readonly view: PhotoView;
  readonly locked: boolean;
}

/** Before any reading: who measures, where, with what, and each safety step acknowledged by hand. */
export function SafetyGate({ job, view, locked }: SafetyGateProps) {
  if (locked) return <GateFields job={job} view={view} />;
  return (
    <details className="card">
      <summary>{t('screen.safety.done', { by: job.by })}</summary>
      <GateFields job={job} view={view} />
    </details>
  );
}

function GateFields({ job, view }: Pick<SafetyGateProps, 'job' | 'view'>) {
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
      <PlaceFields job={job} view={view} />
      <MeterFields meter={job.meter} onChange={(meter) => edit({ type: 'meter', meter })} />
      <SafetySteps job={job} moment="before any reading" by={by.trim()} />
    </section>
  );
}
