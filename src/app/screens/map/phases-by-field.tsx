import { useId } from 'react';
import type { SiteKnowledge } from '../../../flow';
import { t } from '../../text/t';

const WAYS = ['color', 'tag'] as const;

interface PhasesByFieldProps {
  readonly site: SiteKnowledge;
  /** Takes the whole site, since "not known" takes the answer away. */
  readonly onSite: (site: SiteKnowledge) => void;
}

/** What tells phase A from B and C at this site: no rule of the United States gives them colors. */
export function PhasesByField({ site, onSite }: PhasesByFieldProps) {
  const id = useId();
  const put = (value: string): void => {
    const { phasesBy: _, ...rest } = site;
    const way = WAYS.find((w) => w === value);
    onSite(way ? { ...rest, phasesBy: way } : rest);
  };
  return (
    <label className="field" htmlFor={id}>
      <span>{t('screen.site.phases-by')}</span>
      <select id={id} value={site.phasesBy ?? ''} onChange={(e) => put(e.target.value)}>
        <option value="">{t('screen.site.phases-by.unknown')}</option>
        {WAYS.map((w) => (
          <option key={w} value={w}>
            {t(`screen.site.phases-by.${w}`)}
          </option>
        ))}
      </select>
    </label>
  );
}
