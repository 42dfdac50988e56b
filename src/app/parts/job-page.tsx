import type { ReactNode } from 'react';
import type { Job } from '../../flow';
import { Deck } from './deck';
import { HintBanner } from './hint-banner';
import { JobBar } from './job-bar';
import { StepNav } from './step-nav';
import { UndoKeys } from './undo-keys';

interface JobPageProps {
  readonly job: Job;
  readonly children: ReactNode;
  /** The key needed most, in reach of the thumb. */
  readonly action?: ReactNode;
}

/** Frame of a screen of a job that shows no photo of its own: where we are, the caution, and the deck. */
export function JobPage({ job, children, action }: JobPageProps) {
  return (
    <div className="page record">
      <header className="bar-area">
        <JobBar job={job} />
        <HintBanner />
      </header>
      <main className="stack column">{children}</main>
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
