import { HelpHeading } from '../../parts/help-heading';
import { mayLift, needsLifting } from '../../state/may-measure';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';
import { Cautions } from './cautions';
import { ChangeNote } from './change-note';
import { CheckCard } from './check-card';
import { CheckList } from './check-list';
import { CoverageTable } from './coverage-table';
import { Explanations } from './explanations';
import { LiftGate } from './lift-gate';
import { PhasorPicture } from './phasor-picture';
import { ReadingTable } from './reading-table';
import { SafetyGate } from './safety-gate';
import type { MeterState } from './use-meter';

interface MeterScreenProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly meter: MeterState;
  readonly locked: boolean;
}

/** Measuring: first the safety steps, then one check after the other, each judged at once. */
export function MeterScreen({ bench, view, meter, locked }: MeterScreenProps) {
  const { verdict } = view;
  const { plan, ready, stale } = meter.planState;
  return (
    <div className="stack">
      {/* Anew when the gate closes: the box that had the focus is gone, and the work begins at the top. */}
      <HelpHeading on="meter" key={String(locked)}>
        {t('screen.meter.title')}
      </HelpHeading>
      {plan.stops.map((stop) => (
        <p key={stop.code} className="note danger" role="alert">
          <strong>{t('screen.meter.stop')}</strong>
          {sayOf(stop, view.labelOf)}
        </p>
      ))}
      {locked && <SafetyGate job={bench.job} locked />}
      {!locked && (
        <>
          <ChangeNote photo={bench.photo} view={view} />
          <Explanations verdict={verdict} labelOf={view.labelOf} onPick={meter.pick} />
          {!ready && <p role="status">{t('screen.meter.planning')}</p>}
          <CheckCard meter={meter} view={view} />
          {needsLifting(meter.target) && !mayLift(bench.job) && <LiftGate job={bench.job} />}
          {meter.target && <Cautions />}
          {ready && !stale && !meter.target && <p className="note">{t('screen.meter.nothing-left')}</p>}
          <CheckList meter={meter} view={view} />
          <SafetyGate job={bench.job} locked={false} />
        </>
      )}
      {!view.stale && <CoverageTable view={view} required={ready ? plan.required : null} />}
      <ReadingTable photo={bench.photo} view={view} onAgain={locked ? null : meter.readAgain} />
      <PhasorPicture view={view} />
    </div>
  );
}
