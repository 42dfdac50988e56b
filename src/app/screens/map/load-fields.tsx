import type { Role, SiteKnowledge } from '../../../flow';
import { type PanelKind, type PanelSpace, panelBalance } from '../../../identify';
import { useOpenJob } from '../../state/use-job';
import { roleWord } from '../../text/names';
import { measured, percent } from '../../text/numbers';
import { t } from '../../text/t';

/** Amperes beyond this are a slip of the finger. */
const MOST = 4000;

interface LoadFieldsProps {
  readonly site: SiteKnowledge;
  readonly kind: PanelKind;
  readonly spaces: readonly PanelSpace[];
}

/** Loads by pole space, as the user enters them, and what they add up to on each phase. */
export function LoadFields({ site, kind, spaces }: LoadFieldsProps) {
  const { edit } = useOpenJob();
  const loads = site.loads ?? {};
  const put = (space: number, text: string): void => {
    const { [space]: _, ...others } = loads;
    const load = Number(text);
    const valid = text.trim() !== '' && Number.isFinite(load) && load >= 0 && load <= MOST;
    edit({ type: 'site', site: { ...site, loads: valid ? { ...others, [space]: load } : others } });
  };
  const here = Object.fromEntries(
    spaces.flatMap((s) => (loads[s.space] === undefined ? [] : [[s.space, loads[s.space]!]])),
  );
  const entered = Object.keys(here).length > 0;
  const { amperes, imbalance } = panelBalance(here, kind, site.board);
  return (
    <details className="card">
      <summary>{t('screen.panel.loads')}</summary>
      <div className="spaces">
        {spaces.map((s) => (
          <label key={s.space} className="space">
            <span>{t('screen.panel.load', { space: s.space })}</span>
            <input
              type="number"
              inputMode="decimal"
              min={0}
              max={MOST}
              defaultValue={loads[s.space] ?? ''}
              onBlur={(e) => put(s.space, e.target.value)}
            />
          </label>
        ))}
      </div>
      {entered && (
        <ul className="plain-list">
          {(Object.entries(amperes) as [Role, number][]).map(([role, a]) => (
            <li key={role}>{t('screen.panel.load-of', { role: roleWord(role), amperes: measured(a) })}</li>
          ))}
          <li>{t('screen.panel.imbalance', { share: percent(imbalance) })}</li>
        </ul>
      )}
    </details>
  );
}
