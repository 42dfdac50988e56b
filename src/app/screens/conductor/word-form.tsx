import { useId, useState } from 'react';
import { COLOR_NAMES, isColorName, type NamedConductor, type UserWord } from '../../../flow';
import { useServices } from '../../services/context';
import { useOpenJob } from '../../state/use-job';
import type { Workbench } from '../../state/use-workbench';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';

/** The user's own name for the color: outranks what was read, and stays marked as the user's word. */
export function WordForm({ bench, conductor }: { readonly bench: Workbench; readonly conductor: NamedConductor }) {
  const { edit } = useOpenJob();
  const { now } = useServices();
  const word = conductor.userWord;
  const [name, setName] = useState<UserWord['name']>(word?.name ?? conductor.insulation.best);
  const [stripe, setStripe] = useState<string>(word?.stripe ?? conductor.stripe?.name ?? '');
  const id = useId();
  const say = (next: UserWord | null): void =>
    edit({ type: 'word', photo: bench.photo.id, conductor: conductor.id, word: next });

  return (
    <details className="card">
      <summary>{t('screen.word.title')}</summary>
      <div className="stack">
        <p className="soft">{t('screen.word.how')}</p>
        <label className="field" htmlFor={`${id}-name`}>
          <span>{t('screen.word.color')}</span>
          <select
            id={`${id}-name`}
            value={name}
            onChange={(e) => setName(isColorName(e.target.value) ? e.target.value : 'not decided')}
          >
            {COLOR_NAMES.map((each) => (
              <option key={each} value={each}>
                {colorWord(each)}
              </option>
            ))}
            <option value="not decided">{t('screen.color.not-decided')}</option>
          </select>
        </label>
        <label className="field" htmlFor={`${id}-stripe`}>
          <span>{t('screen.word.stripe')}</span>
          <select id={`${id}-stripe`} value={stripe} onChange={(e) => setStripe(e.target.value)}>
            <option value="">{t('screen.word.no-stripe')}</option>
            {COLOR_NAMES.filter((each) => each !== 'green-yellow').map((each) => (
              <option key={each} value={each}>
                {colorWord(each)}
              </option>
            ))}
          </select>
        </label>
        <div className="row">
          <button
            type="button"
            className="key main"
            onClick={() =>
              say({
                name,
                stripe: isColorName(stripe) ? stripe : null,
                by: bench.job.by || t('screen.by.nobody'),
                at: now(),
              })
            }
          >
            {t('screen.word.keep')}
          </button>
          {word && (
            <button type="button" className="key" onClick={() => say(null)}>
              {t('screen.word.take-back')}
            </button>
          )}
        </div>
      </div>
    </details>
  );
}
