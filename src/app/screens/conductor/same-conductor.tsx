import { useId } from 'react';
import type { NamedConductor } from '../../../flow';
import { sameAs } from '../../state/same-conductors';
import { useOpenJob } from '../../state/use-job';
import type { Workbench } from '../../state/use-workbench';
import { setWord } from '../../text/names';
import { t } from '../../text/t';
import { Together } from '../record/together';

/** The same conductor in other photos of the job, as the user says: kept in the record with what they say together. */
export function SameConductor({ bench, conductor }: { readonly bench: Workbench; readonly conductor: NamedConductor }) {
  const { edit } = useOpenJob();
  const id = useId();
  const of = { photo: bench.photo.id, conductor: conductor.id };
  const said = sameAs(bench.job, of);
  const others = bench.job.photos.flatMap((photo, i) => {
    const insulated = photo.findings.conductors
      .map((c, k) => ({ conductor: c, label: String(k + 1) }))
      .filter((c) => c.conductor.covering === 'insulated');
    return photo.id === bench.photo.id || insulated.length === 0 ? [] : [{ photo, number: i + 1, insulated }];
  });
  if (others.length === 0) return null;
  return (
    <details className="card">
      <summary>{t('screen.same.title')}</summary>
      <div className="stack">
        <p className="soft">{t('screen.same.how')}</p>
        {others.map(({ photo, number, insulated }) => (
          <label key={photo.id} className="field" htmlFor={`${id}-${photo.id}`}>
            <span>{t('screen.same.photo', { number, name: photo.findings.photo.name })}</span>
            <select
              id={`${id}-${photo.id}`}
              value={said?.sightings.find((s) => s.photo === photo.id)?.conductor ?? ''}
              onChange={({ target: { value } }) =>
                edit({
                  type: 'same conductor',
                  of,
                  on: { photo: photo.id, conductor: value || null },
                  by: bench.job.by || t('screen.by.nobody'),
                })
              }
            >
              <option value="">{t('screen.same.not-here')}</option>
              {insulated.map(({ conductor: c, label }) => (
                <option key={c.id} value={c.id}>
                  {t('screen.compare.option', { label, set: setWord(c.insulation) })}
                </option>
              ))}
            </select>
          </label>
        ))}
        {said && (
          <div role="status">
            <Together said={said} />
            <p className="soft">{t('screen.same.kept')}</p>
          </div>
        )}
      </div>
    </details>
  );
}
