import { useCallback, useEffect, useState } from 'react';
import type { Job, JobPhoto, NamedConductor, Problem } from '../../flow';
import { useServices } from '../services/context';
import { toProblem } from '../state/to-problem';
import { useOpenJob } from '../state/use-job';
import { requestFor } from './request';
import type { Conclusion } from './think';

interface Kept {
  readonly mapNeeds: readonly unknown[];
  readonly restNeeds: readonly unknown[];
  readonly conclusion: Conclusion;
}

/** Conclusions on photos seen before, by their list of conductors, so that going back to a screen shows them at once. */
const kept = new WeakMap<readonly NamedConductor[], Kept>();

const same = (a: readonly unknown[] | undefined, b: readonly unknown[]): boolean =>
  a?.every((need, i) => need === b[i]) === true;

export interface ConclusionState {
  /** The newest there is; null before the first. */
  readonly conclusion: Conclusion | null;
  /** It rests on something that has since changed; a newer one is on its way. */
  readonly stale: boolean;
  /** Concluding failed; what is shown is older. */
  readonly problem: Problem | null;
  /** Concludes once more after a failure. */
  readonly again: () => void;
}

/** Concludes anew whenever something a photo's conclusion rests on changes, and brings the job's map up to date. */
export function useConclusion(job: Job, photo: JobPhoto): ConclusionState {
  const { thinker } = useServices();
  const { mapped } = useOpenJob();
  const { conductors } = photo.findings;
  const { site, meter, place, acknowledgements } = job;
  const { words, readings, edits } = photo;
  const found = kept.get(conductors);
  const [last, setLast] = useState<Conclusion | null>(found?.conclusion ?? null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [tries, setTries] = useState(0);
  const again = useCallback(() => setTries((n) => n + 1), []);
  const current =
    same(found?.mapNeeds, [site, words]) && same(found?.restNeeds, [readings, meter, place, acknowledgements, edits]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what it rests on is listed; the rest of job and photo is not
  useEffect(() => {
    if (current) return undefined;
    let wanted = true;
    setProblem(null);
    const mapNeeds = [site, words];
    const before = kept.get(conductors);
    const map = same(before?.mapNeeds, mapNeeds) ? (before?.conclusion.map ?? null) : null;
    thinker.conclude(requestFor(job, photo, map)).then(
      (conclusion) => {
        if (!wanted) return;
        kept.set(conductors, { mapNeeds, restNeeds: [readings, meter, place, acknowledgements, edits], conclusion });
        setLast(conclusion);
        if (!map) mapped({ photo: photo.id, conductors, words, site, map: conclusion.map });
      },
      (error: unknown) => {
        if (wanted) setProblem(toProblem(error));
      },
    );
    return () => {
      wanted = false;
    };
  }, [thinker, mapped, conductors, words, readings, site, meter, place, acknowledgements, edits, current, tries]);

  return { conclusion: current && found ? found.conclusion : last, stale: !current, problem, again };
}
