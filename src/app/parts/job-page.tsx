import type { ReactNode } from 'react';
import type { Job } from '../../flow';
import { Deck } from './deck';
import { HintBanner } from './hint-banner';
import { JobBar } from './job-bar';
import { StepNav } from './step-nav';
import { type Steps, UndoKeys } from './undo-keys';

interface JobPageProps {
  readonly job: Job;
  readonly children: ReactNode;
  /** The key needed most, in reach of the thumb. */
  readonly action?: ReactNode;
  /** What Undo takes back here; absent: edits of the job. */
  readonly steps?: Steps | undefined;
  /** What stands above the work on a phone held upright, and beside work and deck where there is the width. */
  readonly picture?: ReactNode;
}

/** Frame of a screen of a whole job: where we are, the caution, and the deck. */
export function JobPage({ job, children, action, steps, picture }: JobPageProps) {
  return (
    <div {...(picture ? { className: 'job', 'data-step': 'photo' } : { className: 'page record' })}>
      <header className="bar-area">
        <JobBar job={job} />
        <HintBanner />
      </header>
      {picture}
      <main className="stack column">{children}</main>
      <Deck>
        <div className="deck-row">
          <UndoKeys steps={steps} />
          {action}
        </div>
        <StepNav job={job.id} photo={job.photos.at(-1)?.id ?? null} current="record" />
      </Deck>
    </div>
  );
}
