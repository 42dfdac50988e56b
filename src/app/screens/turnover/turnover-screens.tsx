import { Route, Switch } from 'wouter';
import type { Job } from '../../../flow';
import { useSecondCopy } from '../../state/use-second-copy';
import { useTurnover } from '../../state/use-turnover';
import { fileName } from '../../text/file-name';
import { LostScreen } from '../lost-screen';
import { ShootScreen } from '../shoot/shoot-screen';
import { DeviationsPart } from './deviations-part';
import { OverviewPart } from './overview-part';
import { PairPart } from './pair-part';
import { QueuePart } from './queue-part';
import { ReportPart } from './report-part';
import { SchedulePart } from './schedule-part';
import { TerminationPart } from './termination-part';
import { TerminationsPart } from './terminations-part';

/** The screens of a turnover, all over one comparison of schedule and photos. */
export function TurnoverScreens({ job }: { readonly job: Job }) {
  const work = useTurnover(job);
  const copy = useSecondCopy(job, `${fileName(job.title)}-${job.id.slice(0, 8)}`);
  return (
    <Switch>
      <Route path="/job/:job/turnover">
        <OverviewPart job={job} work={work} />
      </Route>
      <Route path="/job/:job/turnover/schedule">
        <SchedulePart job={job} work={work} />
      </Route>
      <Route path="/job/:job/turnover/queue">
        <QueuePart job={job} work={work} />
      </Route>
      <Route path="/job/:job/turnover/terminations">
        <TerminationsPart job={job} work={work} />
      </Route>
      <Route path="/job/:job/turnover/deviations">
        <DeviationsPart job={job} work={work} />
      </Route>
      <Route path="/job/:job/turnover/report">
        <ReportPart job={job} work={work} copy={copy} />
      </Route>
      <Route path="/job/:job/turnover/pair/:photo">
        {({ photo }) => {
          const shown = job.photos.find((p) => p.id === decodeURIComponent(photo));
          return shown ? <PairPart key={shown.id} job={job} work={work} photo={shown} /> : <LostScreen />;
        }}
      </Route>
      <Route path="/job/:job/turnover/at/:termination/shoot">
        {({ termination }) => {
          const at = work.view.compared.find((c) => c.termination.id === decodeURIComponent(termination));
          return at ? <ShootScreen journey="record" job={job.id} at={at.termination} /> : <LostScreen />;
        }}
      </Route>
      <Route path="/job/:job/turnover/at/:termination">
        {({ termination }) => {
          const shown = work.view.compared.find((c) => c.termination.id === decodeURIComponent(termination));
          return shown ? (
            <TerminationPart key={shown.termination.id} job={job} work={work} compared={shown} />
          ) : (
            <LostScreen />
          );
        }}
      </Route>
      <Route>
        <LostScreen />
      </Route>
    </Switch>
  );
}
