import { useMemo, useState } from 'react';
import type { Check, Job, JobPhoto, Message, Reading } from '../../../flow';
import { type DeEnergizedPlan, planDeEnergized, question, stops } from '../../../verify';
import { useServices } from '../../services/context';
import { meterOptions } from '../../state/meter-options';
import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';
import { type PlanState, type PlanWish, usePlan } from '../../thinking/use-plan';
import { EMPTY_ENTRY, type Entry, entered } from './entry';

/** What a reading is taken of: a check of the plan, or an earlier reading taken again. */
export type Target = Pick<Check, 'from' | 'to' | 'third' | 'function' | 'condition'> & {
  readonly supersedes?: string;
  /** The value that is taken again. */
  readonly was?: Reading;
};

export interface MeterState {
  readonly planState: PlanState;
  /** Reasons to stop and call someone; said at once, before anything is planned. */
  readonly stops: readonly Message[];
  /** Ringing out with the supply proven off, where that way was chosen. */
  readonly ring: DeEnergizedPlan | null;
  /** Checks still to be made the chosen way, in order. */
  readonly next: readonly Check[];
  readonly check: Check | null;
  readonly target: Target | null;
  readonly entry: Entry;
  readonly setEntry: (entry: Entry) => void;
  /** The program asks back about this value; null when it does not. */
  readonly asked: Message | null;
  readonly pick: (check: string) => void;
  readonly takeBack: (reading: Reading) => void;
  readonly readAgain: (reading: Reading) => void;
  readonly enter: () => void;
  readonly confirm: () => void;
  readonly correct: () => void;
}

/** Which check is in hand and what has been typed for it. */
export function useMeter(job: Job, photo: JobPhoto, view: PhotoView, wish: PlanWish): MeterState {
  const planState = usePlan(job, photo, view, wish);
  const { edit } = useOpenJob();
  const { now, newId } = useServices();
  const [picked, setPicked] = useState<string | null>(null);
  const [again, setAgain] = useState<Reading | null>(null);
  const [entry, setEntry] = useState<Entry>(EMPTY_ENTRY);
  const [asked, setAsked] = useState<{ readonly message: Message; readonly reading: Reading } | null>(null);

  const options = useMemo(() => meterOptions(job, photo), [job, photo]);
  const reasons = useMemo(() => stops(view.map, options), [view.map, options]);
  const ring = useMemo(
    () => (job.place?.way === 'supply off' ? planDeEnergized(view.map, photo.readings, options) : null),
    [job.place?.way, view.map, photo.readings, options],
  );
  const next = ring ? ring.checks : planState.plan.next;
  const offered = ring ? [...next, ...ring.tones] : next;
  const check = again ? null : (offered.find((c) => c.id === picked) ?? next[0] ?? null);
  const target: Target | null = again ? { ...pointsOf(again), supersedes: again.id, was: again } : check;

  const reset = (): void => {
    setEntry(EMPTY_ENTRY);
    setAsked(null);
  };
  const keep = (reading: Reading): void => {
    edit({ type: 'reading', photo: photo.id, reading });
    reset();
    setAgain(null);
    setPicked(null);
  };
  const enter = (): void => {
    const value = target && entered(entry, target.function);
    if (!target || value === null) return;
    const reading: Reading = {
      ...pointsOf(target),
      ...(target.supersedes ? { supersedes: target.supersedes } : {}),
      id: newId(),
      value,
      at: now(),
      by: job.by || t('screen.by.nobody'),
    };
    const message = question(reading, view.map, options);
    if (message) setAsked({ message, reading });
    else keep(reading);
  };

  return {
    planState,
    stops: reasons,
    ring,
    next,
    check,
    target,
    entry,
    setEntry: (typed) => {
      setEntry(typed);
      setAsked(null);
    },
    asked: asked?.message ?? null,
    pick: (id) => {
      setPicked(id);
      setAgain(null);
      reset();
    },
    takeBack: (reading) => {
      edit({ type: 'take back', photo: photo.id, reading: reading.id, by: job.by || t('screen.by.nobody') });
      setAgain(null);
      reset();
    },
    readAgain: (reading) => {
      setAgain(reading);
      reset();
    },
    enter,
    confirm: () => {
      if (asked) keep({ ...asked.reading, confirmed: true });
    },
    correct: reset,
  };
}

function pointsOf(of: Target | Reading): Pick<Reading, 'from' | 'to' | 'third' | 'function' | 'condition'> {
  const { from, to, third, condition } = of;
  return { from, to, function: of.function, ...(third ? { third } : {}), ...(condition ? { condition } : {}) };
}
