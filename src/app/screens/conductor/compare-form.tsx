import { useId, useState } from 'react';
import { judgeComparison } from '../../../color';
import type { NamedConductor } from '../../../flow';
import { CablePiece } from '../../parts/cable';
import { useServices } from '../../services/context';
import { useHueCheck } from '../../state/use-hue-check';
import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { setWord } from '../../text/names';
import { dateTime } from '../../text/numbers';
import { say } from '../../text/say';
import { t } from '../../text/t';

interface CompareFormProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly conductor: NamedConductor;
}

/** "Is this the same color as that?" for two conductors of one photo. */
export function CompareForm({ bench, view, conductor }: CompareFormProps) {
  const [chosen, choose] = useState('');
  const id = useId();
  const others = view.conductors.filter((c) => c.id !== conductor.id && c.covering === 'insulated');
  const other = others.find((c) => c.id === chosen);
  if (others.length === 0) return null;
  return (
    <details className="card">
      <summary>{t('screen.compare.title')}</summary>
      <div className="stack">
        <label className="field" htmlFor={id}>
          <span>{t('screen.compare.with')}</span>
          <select id={id} value={chosen} onChange={(e) => choose(e.target.value)}>
            <option value="">{t('screen.compare.choose')}</option>
            {others.map((c) => (
              <option key={c.id} value={c.id}>
                {t('screen.compare.option', {
                  label: view.labelOf(c.id),
                  set: setWord(c.insulation),
                })}
              </option>
            ))}
          </select>
        </label>
        {other && <Answer bench={bench} conductor={conductor} other={other} />}
      </div>
    </details>
  );
}

interface AnswerProps {
  readonly bench: Workbench;
  readonly conductor: NamedConductor;
  readonly other: NamedConductor;
}

function Answer({ bench, conductor, other }: AnswerProps) {
  const hue = useHueCheck(bench, conductor, other);
  const { edit } = useOpenJob();
  const { now } = useServices();
  const comparison = typeof hue === 'string' ? null : hue.comparison;
  const kept = bench.photo.comparisons?.find((one) =>
    [conductor.id, other.id].every((id) => one.conductors.includes(id)),
  );
  const keep = (log10Ratio: number): void =>
    edit({
      type: 'compared',
      photo: bench.photo.id,
      comparison: {
        conductors: [conductor.id, other.id],
        log10Ratio,
        by: bench.job.by || t('screen.by.nobody'),
        at: now(),
      },
    });
  return (
    <>
      <p className="compare-pair">
        <CablePiece name={conductor.insulation.best} />
        <CablePiece name={other.insulation.best} />
      </p>
      <p role="status">
        {hue === 'looking'
          ? t('screen.compare.looking')
          : comparison
            ? say(judgeComparison(comparison))
            : t('screen.compare.nothing')}
      </p>
      <p className="soft">{t('screen.compare.caution')}</p>
      {comparison && (
        <button type="button" className="key" onClick={() => keep(comparison.log10Ratio)}>
          {t('screen.compare.keep')}
        </button>
      )}
      {kept && <p className="soft">{t('screen.compare.kept', { by: kept.by, when: dateTime(kept.at) })}</p>}
    </>
  );
}
