import { useState } from 'react';
import { COLOR_NAMES, type ColorName, isColorName, type Role, type SiteKnowledge } from '../../../flow';
import { SYSTEMS } from '../../../identify';
import { CablePiece } from '../../parts/cable';
import { colorWord, roleWord, systemWord } from '../../text/names';
import { t } from '../../text/t';
import type { SiteChange } from './site-change';

interface LegendFieldsProps {
  readonly site: SiteKnowledge;
  readonly onChange: SiteChange;
}

/** The identification posted at this building's panels; it outranks habit. */
export function LegendFields({ site, onChange }: LegendFieldsProps) {
  const systems = Object.values(SYSTEMS).filter((s) => s.jurisdiction === site.jurisdiction);
  const [chosen, setChosen] = useState<string>('');
  const system = systems.find((s) => s.id === chosen) ?? systems[0];
  const [role, setRole] = useState<Role | null>(null);
  const [color, setColor] = useState<ColorName>('black');
  const [stripe, setStripe] = useState<ColorName | null>(null);
  const roles = system?.roles ?? [];
  const meant = role && roles.includes(role) ? role : roles[0];
  const add = (): void => {
    if (!system || !meant) return;
    const entry = { system: system.id, role: meant, color, ...(stripe && stripe !== color ? { stripe } : {}) };
    onChange({ legend: [...site.legend, entry] });
  };
  return (
    <details className="card">
      <summary>{t('screen.site.legend', { count: site.legend.length })}</summary>
      <div className="stack">
        <p className="soft">{t('screen.site.legend-how')}</p>
        <ul className="stack">
          {site.legend.map((entry) => (
            <li key={`${entry.system}-${entry.role}-${entry.color}-${entry.stripe ?? ''}`} className="row spread">
              <span>
                <CablePiece name={entry.color} stripe={entry.stripe} />{' '}
                {t('screen.role-in-system', { role: roleWord(entry.role), system: systemWord(entry.system) })}
              </span>
              <button
                type="button"
                className="key"
                onClick={() => onChange({ legend: site.legend.filter((other) => other !== entry) })}
              >
                {t('screen.remove')}
              </button>
            </li>
          ))}
        </ul>
        <label className="field">
          <span>{t('screen.site.legend-system')}</span>
          <select value={system?.id ?? ''} onChange={(e) => setChosen(e.target.value)}>
            {systems.map((s) => (
              <option key={s.id} value={s.id}>
                {systemWord(s.id)}
              </option>
            ))}
          </select>
        </label>
        <label className="field">
          <span>{t('screen.col.role')}</span>
          <select value={meant ?? ''} onChange={(e) => setRole(roles.find((r) => r === e.target.value) ?? null)}>
            {roles.map((r) => (
              <option key={r} value={r}>
                {roleWord(r)}
              </option>
            ))}
          </select>
        </label>
        <label className="field">
          <span>{t('screen.word.color')}</span>
          <select value={color} onChange={(e) => isColorName(e.target.value) && setColor(e.target.value)}>
            {COLOR_NAMES.map((c) => (
              <option key={c} value={c}>
                {colorWord(c)}
              </option>
            ))}
          </select>
        </label>
        <label className="field">
          <span>{t('screen.site.legend-stripe')}</span>
          <select value={stripe ?? ''} onChange={(e) => setStripe(isColorName(e.target.value) ? e.target.value : null)}>
            <option value="">{t('screen.site.legend-no-stripe')}</option>
            {COLOR_NAMES.filter((c) => c !== color).map((c) => (
              <option key={c} value={c}>
                {colorWord(c)}
              </option>
            ))}
          </select>
        </label>
        <button type="button" className="key" onClick={add}>
          {t('screen.site.legend-add')}
        </button>
      </div>
    </details>
  );
}
