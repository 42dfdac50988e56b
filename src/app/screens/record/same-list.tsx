import type { Job, SeenConductor } from '../../../flow';
import { t } from '../../text/t';
import { Together } from './together';

/** Conductors that the user says are seen on several photos, with what those say together. */
export function SameList({ job }: { readonly job: Job }) {
  if (!job.same?.length) return null;
  const placeOf = ({ photo, conductor }: SeenConductor): string => {
    const k = job.photos.findIndex((p) => p.id === photo);
    const label = (job.photos[k]?.findings.conductors.findIndex((c) => c.id === conductor) ?? -1) + 1;
    return t('screen.same.place', { photo: k + 1, label });
  };
  return (
    <section className="card stack" aria-labelledby="same-conductors">
      <h2 id="same-conductors">{t('screen.same.list')}</h2>
      <ul className="stack plain">
        {job.same.map((said) => (
          <li key={said.id} className="stack">
            <b>{said.sightings.map(placeOf).join(' = ')}</b>
            <Together said={said} />
          </li>
        ))}
      </ul>
      <p className="soft">{t('screen.same.proves-nothing')}</p>
    </section>
  );
}
