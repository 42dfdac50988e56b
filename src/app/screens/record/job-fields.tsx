import { useEffect, useId, useState } from 'react';
import type { Job } from '../../../flow';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';

/** Title and name of who says so. A field is one undo step, taken when it is left. */
export function JobFields({ job }: { readonly job: Job }) {
  const { edit } = useOpenJob();
  const id = useId();
  return (
    <div className="stack">
      <TextField
        id={`${id}-title`}
        label={t('screen.record.job-title')}
        value={job.title}
        onLeave={(title) => edit({ type: 'title', title: title || job.title })}
      />
      <TextField
        id={`${id}-by`}
        label={t('screen.record.by')}
        value={job.by}
        autoComplete="name"
        onLeave={(by) => edit({ type: 'by', by })}
      />
    </div>
  );
}

interface TextFieldProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly autoComplete?: string;
  readonly onLeave: (value: string) => void;
}

function TextField({ id, label, value, autoComplete = 'off', onLeave }: TextFieldProps) {
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  return (
    <label className="field" htmlFor={id}>
      <span>{label}</span>
      <input
        id={id}
        type="text"
        autoComplete={autoComplete}
        value={text}
        onChange={(e) => setText(e.target.value)}
        onBlur={() => onLeave(text.trim())}
      />
    </label>
  );
}
