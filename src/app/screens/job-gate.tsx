import { useEffect, useState } from 'react';
import { Redirect, Route, Switch } from 'wouter';
import type { Job, Problem } from '../../flow';
import { ProblemNote } from '../parts/problem-note';
import { isJourney, to } from '../routes';
import { useServices } from '../services/context';
import { toProblem } from '../state/to-problem';
import { useOpenJob } from '../state/use-job';
import { t } from '../text/t';
import { LostScreen } from './lost-screen';
import { PhotoFrame } from './photo-frame';
import { RecordScreen } from './record/record-screen';
import { ShootScreen } from './shoot/shoot-screen';
import { TurnoverScreens } from './turnover/turnover-screens';

/** Opens the job a link names, from this device, then shows the screen below it. */
export function JobGate({ id }: { readonly id: string }) {
  const { store } = useServices();
  const { job, open } = useOpenJob();
  const [missing, setMissing] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const isOpen = job?.id === id;

  useEffect(() => {
    if (isOpen) return undefined;
    let current = true;
    store.open(id).then(
      (found) => {
        if (!current) return;
        if (found) open(found);
        else setMissing(true);
      },
      (error: unknown) => {
        if (current) setProblem(toProblem(error));
      },
    );
    return () => {
      current = false;
    };
  }, [store, open, id, isOpen]);

  if (isOpen) return <JobScreens job={job} />;
  if (missing) return <LostScreen />;
  return (
    <main className="page-wait" aria-busy={!problem}>
      {problem ? <ProblemNote problem={problem} /> : <p role="status">{t('screen.job.opening')}</p>}
    </main>
  );
}

function JobScreens({ job }: { readonly job: Job }) {
  return (
    <Switch>
      <Route path="/job/:job/record">
        <RecordScreen job={job} />
      </Route>
      <Route path="/job/:job/turnover/*?">
        <TurnoverScreens job={job} />
      </Route>
      <Route path="/job/:job/shoot/:journey">
        {({ journey }) => (isJourney(journey) ? <ShootScreen journey={journey} job={job.id} /> : <LostScreen />)}
      </Route>
      <Route path="/job/:job/photo/:photo/*?">
        {({ photo }) => {
          const shown = job.photos.find((p) => p.id === decodeURIComponent(photo));
          return shown ? <PhotoFrame key={shown.id} job={job} photo={shown} /> : <LostScreen />;
        }}
      </Route>
      <Route path="/job/:job">
        <Redirect to={firstPlace(job)} replace />
      </Route>
      <Route>
        <LostScreen />
      </Route>
    </Switch>
  );
}

/** Where a job is taken up again: a turnover at its terminations, any other at its first photo. */
function firstPlace(job: Job): string {
  if (job.turnover && job.turnover.lines.length > 0) return to.turnover(job.id, 'terminations');
  const first = job.photos[0];
  return first ? to.photo(job.id, first.id) : to.record(job.id);
}
