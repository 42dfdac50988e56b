import { useEffect, useRef, useState } from 'react';
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

/** `soon`: the user looks at the map; what he will want next is the first check. */
export type PlanWish = 'no' | 'soon' | 'now';

/** A map that was looked at this long, ms, is probably not about to be edited in the next moment. */
const LOOKED = 400;

/**
 * The checks still to make on a photo. Planned while wanted `now`, after each new conclusion; while wanted `soon`, a
 * first order is worked out ahead, so that the check is there when the meter is opened.
 */
export function usePlan(job: Job, photo: JobPhoto, view: PhotoView, wish: PlanWish): PlanState {
  const { thinker } = useServices();
  const [planned, setPlanned] = useState<Planned | null>(null);
  const { conclusion, stale } = view;
  const ahead = useRef<Planned | null>(null);
  const early = wish === 'soon' && !stale && conclusion !== null && planned?.of !== conclusion;
  const due = wish === 'now' && !stale && conclusion !== null && !(planned?.of === conclusion && planned.refined);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a conclusion stands for all that it rests on
  useEffect(() => {
    if (!early || !conclusion) return undefined;
    const timer = setTimeout(() => {
      thinker
        .first(requestFor(job, photo, conclusion.map))
        .then((plan) => {
          // Kept, not shown: nothing on the map changes by it.
          ahead.current = { of: conclusion, plan, refined: false };
        })
        // Cancelled by a newer conclusion; a fault shows when the plan is wanted.
        .catch(() => {});
    }, LOOKED);
    return () => clearTimeout(timer);
  }, [thinker, conclusion, early]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a conclusion stands for all that it rests on
  useEffect(() => {
    if (!due || !conclusion) return undefined;
    let current = true;
    const request = requestFor(job, photo, conclusion.map);
    const show = (refined: boolean) => (plan: MeterPlan) => {
      if (current) setPlanned({ of: conclusion, plan, refined });
    };
    const kept = ahead.current?.of === conclusion ? ahead.current.plan : null;
    if (kept) setPlanned({ of: conclusion, plan: kept, refined: false });
    (kept ? Promise.resolve() : thinker.first(request).then(show(false)))
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
