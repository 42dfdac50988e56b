import type { Job, JobPlace, SystemId } from '../../../flow';
import { postable } from '../../../verify';
import { UNKNOWN_PLACE } from '../../state/place';
import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import { systemWord } from '../../text/names';
import { t } from '../../text/t';

/** Least category of the meter by place (IEC 61010-2-030); the stop itself is judged in the verify room. */
const PLACES = [
  { kind: 'outlet', category: 'II' },
  { kind: 'panel', category: 'III' },
  { kind: 'service', category: 'IV' },
] as const;

/** Where the leads go, how the gear looks, what it feeds, and volts that only a nameplate tells. */
export function PlaceFields({ job, view }: { readonly job: Job; readonly view: PhotoView }) {
  const { edit } = useOpenJob();
  const place = job.place ?? UNKNOWN_PLACE;
  const change = (part: Partial<JobPlace>): void => edit({ type: 'place', place: { ...place, ...part } });
  return (
    <>
      <fieldset className="stack">
        <legend>{t('screen.place.kind')}</legend>
        {PLACES.map(({ kind, category }) => (
          <button
            key={kind}
            type="button"
            className="key check-key"
            aria-pressed={place.kind === kind}
            onClick={() => change({ kind })}
          >
            <b>{t(`screen.place.${kind}`)}</b>
            <small>{t('screen.place.needs', { category })}</small>
          </button>
        ))}
      </fieldset>
      <fieldset className="stack">
        <legend>{t('screen.place.gear')}</legend>
        <div className="row">
          <button
            type="button"
            className="key"
            aria-pressed={place.wetOrDamaged === false}
            onClick={() => change({ wetOrDamaged: false })}
          >
            {t('screen.place.sound')}
          </button>
          <button
            type="button"
            className="key"
            aria-pressed={place.wetOrDamaged === true}
            onClick={() => change({ wetOrDamaged: true })}
          >
            {t('screen.place.wet')}
          </button>
        </div>
      </fieldset>
      <label className="tick">
        <input type="checkbox" checked={place.motors} onChange={(e) => change({ motors: e.target.checked })} />
        {t('screen.place.motors')}
      </label>
      {postable(view.map).map((system) => (
        <PostedField
          key={system}
          system={system}
          volts={place.postedVolts[system]}
          onChange={(volts) => change({ postedVolts: withVolts(place.postedVolts, system, volts) })}
        />
      ))}
    </>
  );
}

function withVolts(posted: JobPlace['postedVolts'], system: SystemId, volts: number | null): JobPlace['postedVolts'] {
  const { [system]: _, ...others } = posted;
  return volts === null ? others : { ...others, [system]: volts };
}

interface PostedFieldProps {
  readonly system: SystemId;
  readonly volts: number | undefined;
  readonly onChange: (volts: number | null) => void;
}

/** An empty or unreadable field takes the volts back. */
function PostedField({ system, volts, onChange }: PostedFieldProps) {
  return (
    <label className="field">
      <span>{t('screen.place.posted', { system: systemWord(system) })}</span>
      <input
        key={volts ?? 'none'}
        type="text"
        inputMode="decimal"
        defaultValue={volts ?? ''}
        onBlur={(e) => {
          const typed = Number(e.target.value.replace(',', '.'));
          const said = e.target.value.trim() !== '' && Number.isFinite(typed) && typed > 0 ? typed : null;
          if (said !== (volts ?? null)) onChange(said);
        }}
      />
      <small className="soft">{t('screen.place.posted-how')}</small>
    </label>
  );
}
