import type { Job } from '../../../flow';
import { UNKNOWN_PLACE } from '../../state/place';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';

const WAYS = [
  { way: 'supply off', name: 'screen.way.off', what: 'screen.way.off-what' },
  { way: 'supply on', name: 'screen.way.on', what: 'screen.way.on-what' },
] as const;

/** Measuring live is one way; ringing out with the supply proven off is the other, and it stands first. */
export function WayFields({ job }: { readonly job: Job }) {
  const { edit } = useOpenJob();
  const place = job.place ?? UNKNOWN_PLACE;
  return (
    <fieldset className="stack">
      <legend>{t('screen.way.title')}</legend>
      {WAYS.map(({ way, name, what }) => (
        <button
          key={way}
          type="button"
          className="key check-key"
          aria-pressed={place.way === way}
          onClick={() => edit({ type: 'place', place: { ...place, way } })}
        >
          <b>{t(name)}</b>
          <small>{t(what)}</small>
        </button>
      ))}
    </fieldset>
  );
}
