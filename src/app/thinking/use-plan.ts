import { useEffect, useState } from 'react';
import type { Job, JobPhoto, MeterPlan } from '../../flow';
import { checkId } from '../../verify';
import { useServices } from '../services/context';
import type { PhotoView } from '../state/use-photo-view';
import { requestFor } from './request';
import type { Conclusion } from './think';

interface Planned {
  readonly of: Conclusion;
  readonly plan: MeterPlan;
  /** In the order of least expected work; before that, in a first good one. */
  readonly refined: boolean;
}

const NO_PLAN: MeterPlan = { next: [], required: {}, stops: [] };

export interface PlanState {
  readonly plan: MeterPlan;
  /** False before the first plan: an empty one then means nothing. */
  readonly ready: boolean;
  /** A newer plan is being made; until then checks already answered are left out of the old one. */
  readonly stale: boolean;
}

/** The checks still to make on a photo. Planned while `wanted`, after each new conclusion. */
export function usePlan(job: Job, photo: JobPhoto, view: PhotoView, wanted: boolean): PlanState {
  const { thinker } = useServices();
  const [planned, setPlanned] = useState<Planned | null>(null);
  const { conclusion, stale } = view;
  const due = wanted && !stale && conclusion !== null && !(planned?.of === conclusion && planned.refined);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a conclusion stands for all that it rests on
  useEffect(() => {
    if (!due || !conclusion) return undefined;
    let current = true;
    const request = requestFor(job, photo, conclusion.map);
    const show = (refined: boolean) => (plan: MeterPlan) => {
      if (current) setPlanned({ of: conclusion, plan, refined });
    };
    thinker
      .first(request)
      .then(show(false))
      .then(() => (current ? thinker.plan(request).then(show(true)) : undefined))
      // Cancelled by a newer conclusion, whose own plan follows; a fault shows there as well.
      .catch(() => {});
    return () => {
      current = false;
    };
  }, [thinker, conclusion, due]);

  const fresh = planned !== null && planned.of === conclusion && !stale;
  if (!planned) return { plan: NO_PLAN, ready: false, stale: true };
  return { plan: fresh ? planned.plan : unanswered(planned.plan, photo), ready: true, stale: !fresh };
}

function unanswered(plan: MeterPlan, photo: JobPhoto): MeterPlan {
  const answered = new Set(photo.readings.map(checkId));
  return { ...plan, next: plan.next.filter((check) => !answered.has(check.id)) };
}
