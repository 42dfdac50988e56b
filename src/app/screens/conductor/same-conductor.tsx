import { useId, useState } from 'react';
import { combineColors } from '../../../color';
import type { NamedConductor } from '../../../flow';
import { CablePiece } from '../../parts/cable';
import { Share } from '../../parts/share';
import type { Workbench } from '../../state/use-workbench';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';

const setWord = (c: Pick<NamedConductor['insulation'], 'set'>): string =>
  c.set.map(colorWord).join(t('screen.color.or-between'));

/** The same conductor in other photos of the job, as the user says: their readings brought together. */
export function SameConductor({ bench, conductor }: { readonly bench: Workbench; readonly conductor: NamedConductor }) {
  const [chosen, choose] = useState<Readonly<Record<string, string>>>({});
  const id = useId();
  const others = bench.job.photos.flatMap((photo, i) => {
    const insulated = photo.findings.conductors
      .map((c, k) => ({ conductor: c, label: String(k + 1) }))
      .filter((c) => c.conductor.covering === 'insulated');
    return photo.id === bench.photo.id || insulated.length === 0 ? [] : [{ photo, number: i + 1, insulated }];
  });
  if (others.length === 0) return null;
  const readings = others.flatMap(({ photo, insulated }) => {
    const same = insulated.find((c) => c.conductor.id === chosen[photo.id]);
    return same ? [same.conductor.insulation.candidates] : [];
  });
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
              value={chosen[photo.id] ?? ''}
              onChange={(e) => choose({ ...chosen, [photo.id]: e.target.value })}
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
        {readings.length > 0 && <Together readings={[conductor.insulation.candidates, ...readings]} />}
      </div>
    </details>
  );
}

function Together({ readings }: { readonly readings: Parameters<typeof combineColors>[0] }) {
  const together = combineColors(readings);
  return (
    <div className="stack" role="status">
      {together.contradicting && <p className="note caution">{t('screen.same.contradicting')}</p>}
      <p>{t('screen.same.set', { count: readings.length, set: setWord(together) })}</p>
      <ul className="stack">
        {together.candidates.slice(0, 4).map((c) => (
          <li key={c.name}>
            <Share of={<CablePiece name={c.name} />} probability={c.probability} />
          </li>
        ))}
      </ul>
      <p className="soft">{t('screen.same.kept')}</p>
    </div>
  );
}
