import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { Job } from '../../../flow';
import { Icon } from '../../parts/icon';
import { JobPage } from '../../parts/job-page';
import { ScreenHeading } from '../../parts/screen-heading';
import type { Steps } from '../../parts/undo-keys';
import { type TurnoverPart, to } from '../../routes';
import { t } from '../../text/t';

const PARTS = [
  ['schedule', 'screen.turnover.schedule'],
  ['queue', 'screen.turnover.queue'],
  ['terminations', 'screen.turnover.terminations'],
  ['deviations', 'screen.turnover.deviations'],
  ['report', 'screen.turnover.report'],
] as const satisfies readonly (readonly [TurnoverPart, string])[];

interface TurnoverPageProps {
  readonly job: Job;
  readonly title: string;
  readonly current?: TurnoverPart;
  /** A screen below a part: the way back to that part stands instead of all parts. */
  readonly within?: TurnoverPart;
  readonly children: ReactNode;
  /** The key needed most, in reach of the thumb. */
  readonly action?: ReactNode;
  /** What Undo takes back here; absent: edits of the job. */
  readonly steps?: Steps;
  readonly picture?: ReactNode;
}

/** Frame of every turnover screen: where we are, the parts of the turnover, and the caution. */
export function TurnoverPage({ job, title, current, within, children, action, steps, picture }: TurnoverPageProps) {
  return (
    <JobPage job={job} action={action} steps={steps} picture={picture}>
      <ScreenHeading>{title}</ScreenHeading>
      <nav className="row turnover-parts" aria-label={t('screen.turnover.parts')}>
        {within && (
          <Link className="key" href={to.turnover(job.id, within)}>
            <Icon name="back" />
            {t(`screen.turnover.${within}`)}
          </Link>
        )}
        {!within &&
          PARTS.map(([part, code]) => (
            <Link
              key={part}
              className="key"
              href={to.turnover(job.id, part)}
              aria-current={part === current ? 'page' : undefined}
            >
              {t(code)}
            </Link>
          ))}
      </nav>
      {children}
    </JobPage>
  );
}
