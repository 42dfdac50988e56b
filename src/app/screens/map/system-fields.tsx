import { useId } from 'react';
import type { SiteKnowledge } from '../../../flow';
import { SYSTEMS } from '../../../identify';
import { systemWord } from '../../text/names';
import { t } from '../../text/t';
import type { SiteChange } from './site-change';

const JURISDICTIONS = [
  'US',
  'CA',
  'IEC',
  'UK',
  'AU',
  'CN',
  'IN',
  'JP',
] as const satisfies readonly SiteKnowledge['jurisdiction'][];

interface SystemFieldsProps {
  readonly site: SiteKnowledge;
  readonly onChange: SiteChange;
}

/** Whose color habits apply, and which systems are posted here. */
export function SystemFields({ site, onChange }: SystemFieldsProps) {
  const id = useId();
  const systems = Object.values(SYSTEMS).filter((s) => s.jurisdiction === site.jurisdiction);
  const toggle = (system: string, on: boolean): void =>
    onChange({ systems: on ? [...site.systems, system] : site.systems.filter((s) => s !== system) });
  return (
    <>
      <label className="field" htmlFor={id}>
        <span>{t('screen.site.jurisdiction')}</span>
        <select
          id={id}
          value={site.jurisdiction}
          onChange={(e) => {
            const jurisdiction = JURISDICTIONS.find((j) => j === e.target.value);
            if (jurisdiction) onChange({ jurisdiction, systems: [] });
          }}
        >
          {JURISDICTIONS.map((j) => (
            <option key={j} value={j}>
              {t(`screen.jurisdiction.${j}`)}
            </option>
          ))}
        </select>
      </label>
      <details className="card">
        <summary>{t('screen.site.systems', { count: site.systems.length })}</summary>
        <fieldset className="stack">
          <legend className="unseen">{t('screen.site.systems-legend')}</legend>
          {systems.map((s) => (
            <label key={s.id} className="tick">
              <input
                type="checkbox"
                checked={site.systems.includes(s.id)}
                onChange={(e) => toggle(s.id, e.target.checked)}
              />
              {systemWord(s.id)}
            </label>
          ))}
        </fieldset>
      </details>
    </>
  );
}
