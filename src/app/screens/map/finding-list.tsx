import type { Finding, Severity } from '../../../flow';
import { Icon, type IconName } from '../../parts/icon';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

const SEVERITIES = {
  danger: { icon: 'stop', tone: 'danger', code: 'screen.severity.danger' },
  violation: { icon: 'warn', tone: 'danger', code: 'screen.severity.violation' },
  warning: { icon: 'warn', tone: 'caution', code: 'screen.severity.warning' },
  note: { icon: 'eye', tone: '', code: 'screen.severity.note' },
} as const satisfies Record<Severity, { readonly icon: IconName; readonly tone: string; readonly code: string }>;

const STATUS = {
  read: 'screen.rule.read',
  'from memory': 'screen.rule.memory',
  'common practice, no source': 'screen.rule.practice',
} as const;

const ORDER: readonly Severity[] = ['danger', 'violation', 'warning', 'note'];

interface FindingListProps {
  readonly findings: readonly Finding[];
  readonly labelOf: (conductor: string) => string;
}

/** Rules broken and risks seen, worst first. An empty list is no statement that all is well, and says so. */
export function FindingList({ findings, labelOf }: FindingListProps) {
  const sorted = findings.toSorted((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity));
  return (
    <section className="stack" aria-labelledby="findings">
      <h2 id="findings">{t('screen.map.findings')}</h2>
      {sorted.length === 0 && <p className="soft">{t('screen.map.no-findings')}</p>}
      <ul className="stack">
        {sorted.map((f) => {
          const { icon, tone, code } = SEVERITIES[f.severity];
          return (
            <li key={`${f.code}-${f.conductors.join('-')}`} className={`note ${tone}`}>
              <strong className="row">
                <Icon name={icon} />
                {t(code)}
                {f.conductors.map((c) => (
                  <span key={c} className="tag">
                    {labelOf(c)}
                  </span>
                ))}
              </strong>
              <p>{sayOf(f.message, labelOf)}</p>
              {f.rule && (
                <p className="soft">
                  {f.ruleStatus ? t('screen.rule', { rule: f.rule, status: t(STATUS[f.ruleStatus]) }) : f.rule}
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
