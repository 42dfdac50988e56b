import { useRef, useState } from 'react';
import type { Point, Problem } from '../../../flow';
import { ProblemNote } from '../../parts/problem-note';
import { TextField } from '../../parts/text-field';
import { useServices } from '../../services/context';
import { toProblem } from '../../state/to-problem';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';
import type { PartProps } from './part-props';

const thousandth = (value: number): number => Math.round(Math.min(1, Math.max(0, value)) * 1000) / 1000;

/** Signs the record as it is kept now: typed, and drawn if wanted. */
export function SignatureForm({ job, work }: PartProps) {
  const { store, now } = useServices();
  const { save } = useOpenJob();
  const [by, setBy] = useState(job.by);
  const [capacity, setCapacity] = useState('');
  const [strokes, setStrokes] = useState<readonly (readonly Point[])[]>([]);
  const [problem, setProblem] = useState<Problem | null>(null);
  const sign = (): void => {
    store.log(job.id).then(
      (log) => {
        const covers = log.at(-1)?.jobHash ?? '';
        const drawn = strokes.length > 0 ? { strokes } : {};
        const signature = { by: by.trim(), capacity: capacity.trim(), at: now(), covers, ...drawn };
        work.change((so) => ({ ...so, signatures: [...so.signatures, signature] }));
        setStrokes([]);
        setCapacity('');
      },
      (error: unknown) => setProblem(toProblem(error)),
    );
  };
  return (
    <section className="card stack" aria-labelledby="sign">
      <h2 id="sign">{t('screen.turnover.sign-title')}</h2>
      <p className="soft">{t('screen.turnover.sign-how')}</p>
      {problem && <ProblemNote problem={problem} />}
      {work.view.turnover.signatures.map((s) => (
        <p key={`${s.by}-${s.at}`}>
          <b>{s.by}</b>, {s.capacity}, {s.at}
        </p>
      ))}
      <TextField label={t('screen.record.by')} value={by} onChange={setBy} autoComplete="name" />
      <TextField label={t('screen.turnover.capacity')} value={capacity} onChange={setCapacity} />
      <SignaturePad strokes={strokes} onStrokes={setStrokes} />
      <div className="row">
        <button type="button" className="key" disabled={strokes.length === 0} onClick={() => setStrokes([])}>
          {t('screen.turnover.wipe')}
        </button>
        <button
          type="button"
          className="key main"
          disabled={by.trim() === '' || capacity.trim() === '' || save.kind !== 'saved'}
          onClick={sign}
        >
          {t('screen.turnover.sign')}
        </button>
      </div>
    </section>
  );
}

interface PadProps {
  readonly strokes: readonly (readonly Point[])[];
  readonly onStrokes: (change: (before: readonly (readonly Point[])[]) => readonly (readonly Point[])[]) => void;
}

/** A field for drawing with finger or pen. Whoever cannot draw signs by typing alone. */
function SignaturePad({ strokes, onStrokes }: PadProps) {
  const field = useRef<SVGSVGElement>(null);
  const placeOf = (event: React.PointerEvent): Point => {
    const box = field.current?.getBoundingClientRect();
    if (!box) return [0, 0];
    return [thousandth((event.clientX - box.left) / box.width), thousandth((event.clientY - box.top) / box.height)];
  };
  return (
    <svg
      ref={field}
      className="signature-pad"
      viewBox="0 0 1 1"
      preserveAspectRatio="none"
      role="img"
      aria-label={t('screen.turnover.pad')}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        const at = placeOf(event);
        onStrokes((before) => [...before, [at]]);
      }}
      onPointerMove={(event) => {
        if (event.buttons === 0) return;
        const at = placeOf(event);
        onStrokes((before) => [...before.slice(0, -1), [...(before.at(-1) ?? []), at]]);
      }}
    >
      {strokes.map((stroke, k) => (
        <polyline
          // biome-ignore lint/suspicious/noArrayIndexKey: strokes are only ever added
          key={k}
          points={stroke.map((p) => p.join(',')).join(' ')}
        />
      ))}
    </svg>
  );
}
