import { useEffect, useMemo, useState } from 'react';
import { EMPTY_TURNOVER, type Job, type Turnover } from '../../flow';
import { type Standings, type TurnoverView, viewTurnover } from '../../record';
import { useServices } from '../services/context';
import { standingsOf } from '../thinking/standings';
import { useOpenJob } from './use-job';

export interface TurnoverWork {
  readonly view: TurnoverView;
  readonly standings: Standings;
  /** One step of undo. */
  readonly change: (change: (turnover: Turnover) => Turnover) => void;
}

const NONE: Standings = new Map();

/** The open job's turnover. Until its readings have been judged anew nothing is shown as metered. */
export function useTurnover(job: Job): TurnoverWork {
  const { thinker } = useServices();
  const { edit } = useOpenJob();
  const [judged, setJudged] = useState<{ readonly of: Job['photos']; readonly standings: Standings } | null>(null);
  const { photos, site, meter } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: what else a job holds does not change a standing
  useEffect(() => {
    // Without a reading a conductor is by color: only the others need to be judged.
    const measured = photos.filter((photo) => photo.readings.length > 0);
    let current = true;
    standingsOf({ ...job, photos: measured }, thinker).then(
      (standings) => {
        if (current) setJudged({ of: photos, standings });
      },
      () => {
        if (current) setJudged(null);
      },
    );
    return () => {
      current = false;
    };
  }, [photos, site, meter, thinker]);
  const standings = judged?.of === photos ? judged.standings : NONE;
  const view = useMemo(() => viewTurnover(job, standings), [job, standings]);
  return {
    view,
    standings,
    change: (change) => edit({ type: 'turnover', turnover: change(job.turnover ?? EMPTY_TURNOVER) }),
  };
}
