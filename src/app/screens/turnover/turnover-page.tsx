import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { Job } from '../../../flow';
import { Deck } from '../../parts/deck';
import { HintBanner } from '../../parts/hint-banner';
import { JobBar } from '../../parts/job-bar';
import { ScreenHeading } from '../../parts/screen-heading';
import { StepNav } from '../../parts/step-nav';
import { UndoKeys } from '../../parts/undo-keys';
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
  readonly children: ReactNode;
  /** The key needed most, in reach of the thumb. */
  readonly action?: ReactNode;
}

/** Frame of every turnover screen: where we are, the parts of the turnover, and the caution. */
export function TurnoverPage({ job, title, current, children, action }: TurnoverPageProps) {
  return (
    <div className="page record">
      <header className="bar-area">
        <JobBar job={job} />
        <HintBanner />
      </header>
      <main className="stack column">
        <ScreenHeading>{title}</ScreenHeading>
        <nav className="row turnover-parts" aria-label={t('screen.turnover.parts')}>
          {PARTS.map(([part, code]) => (
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
      </main>
      <Deck>
        <div className="deck-row">
          <UndoKeys />
          {action}
        </div>
        <StepNav job={job.id} photo={job.photos.at(-1)?.id ?? null} current="record" />
      </Deck>
    </div>
  );
}
