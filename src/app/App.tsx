import { useCallback, useSyncExternalStore } from 'react';
import { Route, Router, Switch } from 'wouter';
import { useHashLocation } from 'wouter/use-hash-location';
import { FaultBoundary } from './parts/fault-boundary';
import { HatchDefs } from './parts/hatch-defs';
import { isJourney } from './routes';
import { ColorsScreen } from './screens/help/colors-screen';
import { HelpScreen } from './screens/help/help-screen';
import { SheetScreen } from './screens/help/sheet-screen';
import { JobGate } from './screens/job-gate';
import { LimitsScreen } from './screens/limits/limits-screen';
import { LostScreen } from './screens/lost-screen';
import { ReadingScreen } from './screens/reading/reading-screen';
import { ShootScreen } from './screens/shoot/shoot-screen';
import { StartScreen } from './screens/start/start-screen';
import { NewTurnover } from './screens/turnover/new-turnover';
import { ServicesProvider } from './services/context';
import type { Services } from './services/types';
import { useDroppedPhoto } from './state/use-dropped-photo';
import { OpenJobProvider } from './state/use-job';
import { ReadingProvider, useReading } from './state/use-reading';
import { onSpeech, speech } from './text/speech';

/** The whole interface over the given services. */
export function App({ services }: { readonly services: Services }) {
  useSyncExternalStore(onSpeech, speech);
  return (
    <ServicesProvider value={services}>
      <OpenJobProvider>
        <Router hook={useHashLocation}>
          <ReadingProvider>
            <HatchDefs />
            <FaultBoundary>
              <Screens />
            </FaultBoundary>
          </ReadingProvider>
        </Router>
      </OpenJobProvider>
    </ServicesProvider>
  );
}

function Screens() {
  const { arrival, start } = useReading();
  useDroppedPhoto(useCallback((file) => start({ bytes: file, name: file.name, journey: 'map' }), [start]));
  if (arrival) return <ReadingScreen />;
  return (
    <Switch>
      <Route path="/">
        <StartScreen />
      </Route>
      <Route path="/help">
        <HelpScreen />
      </Route>
      <Route path="/colors">
        <ColorsScreen />
      </Route>
      <Route path="/sheet">
        <SheetScreen />
      </Route>
      <Route path="/limits">
        <LimitsScreen />
      </Route>
      <Route path="/turnover">
        <NewTurnover />
      </Route>
      <Route path="/shoot/:journey">
        {({ journey }) => (isJourney(journey) ? <ShootScreen journey={journey} /> : <LostScreen />)}
      </Route>
      <Route path="/job/:job/*?">{({ job }) => <JobGate key={job} id={decodeURIComponent(job)} />}</Route>
      <Route>
        <LostScreen />
      </Route>
    </Switch>
  );
}
