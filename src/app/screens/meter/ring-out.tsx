import type { Check, Job, JobPhoto } from '../../../flow';
import { type DeEnergizedPlan, isNumbered, numberingStep, type RungConductor } from '../../../verify';
import { useServices } from '../../services/context';
import { meterOptions } from '../../state/meter-options';
import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import { dateTime } from '../../text/numbers';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface RingOutProps {
  readonly job: Job;
  readonly photo: JobPhoto;
  readonly view: PhotoView;
  readonly plan: DeEnergizedPlan;
  /** Takes a check in hand. */
  readonly onPick: (check: string) => void;
}

const STEPS = [
  'screen.ring.step-number',
  'screen.ring.step-tone',
  'screen.ring.step-open',
  'screen.ring.step-closed',
  'screen.ring.step-same',
] as const;

/** Ringing out with the supply proven off: how, and how far each conductor is. */
export function RingOut({ job, photo, view, plan, onPick }: RingOutProps) {
  const done = plan.conductors.every((c) => c.state === 'found');
  return (
    <section className="stack" aria-labelledby="ring">
      <h2 id="ring">{t('screen.ring.title')}</h2>
      <p>{t('screen.ring.how')}</p>
      <ol className="ring-steps">
        {STEPS.map((step) => (
          <li key={step}>{t(step)}</li>
        ))}
      </ol>
      {done && <p className="note caution">{t('screen.ring.done')}</p>}
      <ul className="stack rung">
        {plan.conductors.map((rung) => (
          <li key={rung.conductor} className="row">
            <span className="tag">{view.labelOf(rung.conductor)}</span>
            <span className="rung-state">
              <b>{t(`screen.ring.state.${rung.state}`)}</b>
              {rung.tone && <small className="block">{t(`screen.ring.tone.${rung.tone}`)}</small>}
              <ToneKey tone={toneFor(rung, plan)} label={view.labelOf(rung.conductor)} onPick={onPick} />
              {rung.why && <small className="block">{sayOf(rung.why, view.labelOf)}</small>}
              {rung.state === 'found' && <Numbering job={job} photo={photo} rung={rung} view={view} />}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

const toneFor = (rung: RungConductor, plan: DeEnergizedPlan): Check | undefined =>
  plan.tones.find((c) => c.from.kind === 'conductor' && c.from.conductor === rung.conductor);

interface ToneKeyProps {
  readonly tone: Check | undefined;
  readonly label: string;
  readonly onPick: (check: string) => void;
}

/** Takes the tone of this conductor in hand; not there once it was sent or is no longer wanted. */
function ToneKey({ tone, label, onPick }: ToneKeyProps) {
  if (!tone) return null;
  return (
    <button type="button" className="key" onClick={() => onPick(tone.id)}>
      {t('screen.ring.send-tone')}
      <span className="unseen"> {label}</span>
    </button>
  );
}

type NumberingProps = Pick<RingOutProps, 'job' | 'photo' | 'view'> & { readonly rung: RungConductor };

/** The same number on both ends, confirmed by hand. */
function Numbering({ job, photo, view, rung }: NumberingProps) {
  const { edit } = useOpenJob();
  const { now } = useServices();
  const step = numberingStep(rung.conductor);
  const said = job.acknowledgements.find((a) => a.step === step);
  const numbered = isNumbered(rung, job.acknowledgements, meterOptions(job, photo));
  return (
    <label className="tick">
      <input
        type="checkbox"
        checked={numbered}
        onChange={(e) =>
          edit(
            e.target.checked
              ? { type: 'acknowledge', acknowledgement: { step, by: job.by, at: now() } }
              : { type: 'withdraw', step },
          )
        }
      />
      <span>
        {t('screen.ring.numbered', { label: view.labelOf(rung.conductor) })}
        {numbered && said && (
          <small className="soft block">{t('screen.ring.numbered-by', { by: said.by, when: dateTime(said.at) })}</small>
        )}
      </span>
    </label>
  );
}
