import { Link } from 'wouter';
import { to } from '../../routes';
import { t } from '../../text/t';
import type { PartProps } from './part-props';
import { StorageNote } from './storage-note';
import { TurnoverPage } from './turnover-page';

/** How far the turnover is, in numbers. */
export function OverviewPart({ job, work }: PartProps) {
  const { view } = work;
  const counts = [
    ['screen.turnover.match', view.counts.match],
    ['screen.turnover.differs', view.counts.differs],
    ['screen.turnover.cannot-tell', view.counts['cannot tell']],
    ['screen.turnover.missing', view.counts.missing],
    ['screen.turnover.open-deviations', view.open],
    ['screen.turnover.photo-count', view.photos],
  ] as const;
  return (
    <TurnoverPage job={job} title={t('screen.turnover.title')}>
      <p className="soft">{t('screen.turnover.what')}</p>
      {view.compared.length === 0 ? (
        <Link className="key main wide" href={to.turnover(job.id, 'schedule')}>
          {t('screen.turnover.begin')}
        </Link>
      ) : (
        <dl className="turnover-counts">
          {counts.map(([code, value]) => (
            <div key={code}>
              <dt>{t(code)}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
      <StorageNote />
    </TurnoverPage>
  );
}
