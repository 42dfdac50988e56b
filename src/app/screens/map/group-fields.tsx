import { useState } from 'react';
import type { SiteKnowledge } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';
import type { SiteChange } from './site-change';

const KINDS = ['circuit', 'cable', 'tag', 'breaker'] as const;
type Kind = (typeof KINDS)[number];

interface GroupFieldsProps {
  readonly site: SiteKnowledge;
  readonly view: PhotoView;
  readonly onChange: SiteChange;
}

/** Which conductors belong to one circuit, cable, tag or breaker. */
export function GroupFields({ site, view, onChange }: GroupFieldsProps) {
  const [kind, setKind] = useState<Kind>('circuit');
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const labels = (ids: readonly string[]): string => ids.map(view.labelOf).join(', ');
  const add = (): void => {
    onChange({ groups: [...site.groups, { kind, conductors: chosen }] });
    setChosen([]);
  };
  return (
    <details className="card">
      <summary>{t('screen.site.groups', { count: site.groups.length })}</summary>
      <div className="stack">
        <ul className="stack">
          {site.groups.map((g) => (
            <li key={`${g.kind}-${g.conductors.join('-')}`} className="row spread">
              {t('screen.site.group', { kind: t(`screen.group.${g.kind}`), labels: labels(g.conductors) })}
              <button
                type="button"
                className="key"
                onClick={() => onChange({ groups: site.groups.filter((other) => other !== g) })}
              >
                {t('screen.remove')}
              </button>
            </li>
          ))}
        </ul>
        <label className="field">
          <span>{t('screen.site.group-kind')}</span>
          <select value={kind} onChange={(e) => setKind(KINDS.find((k) => k === e.target.value) ?? 'circuit')}>
            {KINDS.map((k) => (
              <option key={k} value={k}>
                {t(`screen.group.${k}`)}
              </option>
            ))}
          </select>
        </label>
        <fieldset className="tag-grid">
          <legend>{t('screen.site.group-members')}</legend>
          {view.conductors.map((c) => (
            <button
              key={c.id}
              type="button"
              className="key"
              aria-pressed={chosen.includes(c.id)}
              onClick={() => setChosen(chosen.includes(c.id) ? chosen.filter((id) => id !== c.id) : [...chosen, c.id])}
            >
              {view.labelOf(c.id)}
            </button>
          ))}
        </fieldset>
        <button type="button" className="key" disabled={chosen.length < 2} onClick={add}>
          {t('screen.site.group-add')}
        </button>
      </div>
    </details>
  );
}
