import { notices } from '../../../verify';
import { HelpHeading } from '../../parts/help-heading';
import { needsLifting } from '../../state/may-measure';
import { meterOptions } from '../../state/meter-options';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { Cautions } from './cautions';
import { ChangeNote } from './change-note';
import { CheckCard } from './check-card';
import { CheckList } from './check-list';
import { CoverageTable } from './coverage-table';
import { Explanations } from './explanations';
import { LiftGate } from './lift-gate';
import { NoticeList, StopList } from './notice-list';
import { PhasorPictures } from './phasor-picture';
import { ReadingTable } from './reading-table';
import { RingOut } from './ring-out';
import { SafetyGate } from './safety-gate';
import type { MeterState } from './use-meter';
import { WayFields } from './way-fields';

interface MeterScreenProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly meter: MeterState;
  readonly locked: boolean;
}

/** Measuring: first the place and the safety steps, then one check after the other, each judged at once. */
export function MeterScreen({ bench, view, meter, locked }: MeterScreenProps) {
  const { job, photo } = bench;
  const { ready, stale, plan } = meter.planState;
  const { stops, ring } = meter;
  const stopped = stops.length > 0;
  const told = notices(view.map, meterOptions(job, photo));
  // While the gate is open, a meter that nobody has described yet is a question, not a reason to stop.
  const shown = locked ? stops.filter((s) => s.code !== 'verify.stop.no-rated-meter') : stops;
  return (
    <div className="stack">
      {/* Anew when the gate closes: the box that had the focus is gone, and the work begins at the top. */}
      <HelpHeading on="meter" key={String(locked)}>
        {t('screen.meter.title')}
      </HelpHeading>
      <StopList stops={shown} view={view} />
      {locked && (
        <>
          <NoticeList notices={told} view={view} />
          <WayFields job={job} />
          <SafetyGate job={job} view={view} locked />
        </>
      )}
      {!locked && !stopped && (
        <>
          {ring && <LiftGate job={job} />}
          <ChangeNote job={job} photo={photo} view={view} />
          <Explanations verdict={view.verdict} next={meter.next} labelOf={view.labelOf} onPick={meter.pick} />
          {!ready && <p role="status">{t('screen.meter.planning')}</p>}
          <CheckCard meter={meter} view={view} />
          {!ring && needsLifting(meter.target) && <LiftGate job={job} />}
          <NoticeList notices={told} view={view} />
          {meter.target && <Cautions />}
          {ready && !stale && !meter.target && !ring && <p className="note">{t('screen.meter.nothing-left')}</p>}
          <CheckList meter={meter} view={view} />
          {ring && <RingOut job={job} photo={photo} view={view} plan={ring} onPick={meter.pick} />}
        </>
      )}
      {!locked && (
        <>
          <details className="card">
            <summary>{t('screen.way.now', { way: t(ring ? 'screen.way.off' : 'screen.way.on') })}</summary>
            <WayFields job={job} />
          </details>
          <SafetyGate job={job} view={view} locked={false} />
        </>
      )}
      {!view.stale && <CoverageTable view={view} required={ready && !stopped ? plan.required : null} />}
      <ReadingTable
        photo={photo}
        view={view}
        onAgain={locked || stopped ? null : meter.readAgain}
        onTakeBack={locked || stopped ? null : meter.takeBack}
      />
      <PhasorPictures job={job} photo={photo} view={view} />
    </div>
  );
}
