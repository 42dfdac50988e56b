import { useId, useState } from 'react';
import { judgeComparison } from '../../../color';
import type { NamedConductor } from '../../../flow';
import { CablePiece } from '../../parts/cable';
import { useHueCheck } from '../../state/use-hue-check';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { colorWord } from '../../text/names';
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
                  set: c.insulation.set.map(colorWord).join(t('screen.color.or-between')),
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
  const comparison = typeof hue === 'string' ? null : hue.comparison;
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
    </>
  );
}
