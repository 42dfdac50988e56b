import type { CSSProperties } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import type { Job, JobPhoto } from '../../flow';
import { Deck } from '../parts/deck';
import { Guide } from '../parts/guide';
import { HintBanner } from '../parts/hint-banner';
import { JobBar } from '../parts/job-bar';
import { ProblemNote } from '../parts/problem-note';
import { type Step, StepNav } from '../parts/step-nav';
import { to } from '../routes';
import { mayLift, mayMeasure, needsLifting } from '../state/may-measure';
import { usePhotoView } from '../state/use-photo-view';
import { useWorkbench } from '../state/use-workbench';
import { t } from '../text/t';
import { ConductorDeck } from './conductor/conductor-deck';
import { ConductorScreen } from './conductor/conductor-screen';
import { LostScreen } from './lost-screen';
import { MapDeck } from './map/map-deck';
import { MapScreen } from './map/map-screen';
import { MeterDeck } from './meter/meter-deck';
import { MeterScreen } from './meter/meter-screen';
import { useMeter } from './meter/use-meter';
import { PhotoDeck } from './photo/photo-deck';
import { PhotoPicture } from './photo/photo-picture';
import { PhotoScreen } from './photo/photo-screen';

/** One photo of a job: its picture, the step being worked on, and the deck for the thumb. */
export function PhotoFrame({ job, photo }: { readonly job: Job; readonly photo: JobPhoto }) {
  const bench = useWorkbench(job, photo);
  const view = usePhotoView(job, photo);
  const [path] = useLocation();
  const step = stepOf(path);
  const meter = useMeter(job, photo, view, step === 'meter' ? 'now' : step === 'map' ? 'soon' : 'no');
  const locked = !mayMeasure(job);
  // Where there is a reason to stop, nothing is typed in until it is gone.
  const stopped = meter.stops.length > 0;
  const padLocked = locked || stopped || (needsLifting(meter.target) && !mayLift(job));
  return (
    <div className="job" data-step={step}>
      <header className="bar-area">
        <JobBar job={job} />
        <HintBanner />
      </header>
      <section
        className="picture-area"
        aria-label={t('screen.picture.region')}
        style={{ '--aspect': bench.size.width / bench.size.height } as CSSProperties}
      >
        <PhotoPicture bench={bench} view={view} step={step} />
      </section>
      <main aria-busy={view.stale}>
        <Guide job={job} photo={photo} step={step} />
        {view.problem && (
          <ProblemNote problem={view.problem}>
            <button type="button" className="key" onClick={view.again}>
              {t('screen.thinking.again')}
            </button>
          </ProblemNote>
        )}
        <p className="thinking" role="status">
          {view.stale && !view.problem && t('screen.thinking')}
        </p>
        <Switch>
          <Route path="/job/:job/photo/:photo">
            <PhotoScreen bench={bench} view={view} />
          </Route>
          <Route path="/job/:job/photo/:photo/conductor/:conductor">
            {({ conductor }) => (
              <ConductorScreen key={conductor} bench={bench} view={view} id={decodeURIComponent(conductor)} />
            )}
          </Route>
          <Route path="/job/:job/photo/:photo/map">
            <MapScreen bench={bench} view={view} />
          </Route>
          <Route path="/job/:job/photo/:photo/meter">
            <MeterScreen bench={bench} view={view} meter={meter} locked={locked} />
          </Route>
          <Route>
            <LostScreen />
          </Route>
        </Switch>
      </main>
      <Deck>
        {step === 'photo' && <PhotoDeck bench={bench} view={view} />}
        {step === 'conductor' && <ConductorDeck bench={bench} view={view} />}
        {step === 'map' && <MapDeck next={to.meter(job.id, photo.id)} />}
        {step === 'meter' && <MeterDeck meter={meter} view={view} locked={padLocked} />}
        <StepNav job={job.id} photo={photo.id} current={step} />
      </Deck>
    </div>
  );
}

function stepOf(path: string): Step {
  if (path.endsWith('/map')) return 'map';
  if (path.endsWith('/meter')) return 'meter';
  return path.includes('/conductor/') ? 'conductor' : 'photo';
}
