import { useEffect, useState } from 'react';
import type { Job, JobPhoto, NamedConductor, Problem } from '../../flow';
import { useServices } from '../services/context';
import { toProblem } from '../state/to-problem';
import { useOpenJob } from '../state/use-job';
import { requestFor } from './request';
import type { Thoughts } from './think';

interface Kept {
  readonly mapNeeds: readonly unknown[];
  readonly restNeeds: readonly unknown[];
  readonly thoughts: Thoughts;
}

/** Thoughts of photos seen before, by their list of conductors, so that going back to a screen shows them at once. */
const kept = new WeakMap<readonly NamedConductor[], Kept>();

const same = (a: readonly unknown[] | undefined, b: readonly unknown[]): boolean =>
  a?.every((need, i) => need === b[i]) === true;

export interface ThoughtState {
  /** The newest thoughts there are; null before the first. */
  readonly thoughts: Thoughts | null;
  /** They rest on something that has since changed; newer ones are on their way. */
  readonly stale: boolean;
  /** Thinking failed; what is shown is older. */
  readonly problem: Problem | null;
}

/** Thinks about a photo whenever something it rests on changes, and brings the job's phase map up to date. */
export function useThoughts(job: Job, photo: JobPhoto): ThoughtState {
  const { think } = useServices();
  const { mapped } = useOpenJob();
  const { conductors } = photo.findings;
  const { site, meter, acknowledgements } = job;
  const { words, readings } = photo;
  const found = kept.get(conductors);
  const [last, setLast] = useState<Thoughts | null>(found?.thoughts ?? null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const current = same(found?.mapNeeds, [site, words]) && same(found?.restNeeds, [readings, meter, acknowledgements]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what thinking rests on is listed; the rest of job and photo is not
  useEffect(() => {
    if (current) return undefined;
    let wanted = true;
    setProblem(null);
    const mapNeeds = [site, words];
    const before = kept.get(conductors);
    const map = same(before?.mapNeeds, mapNeeds) ? (before?.thoughts.map ?? null) : null;
    think(requestFor(job, photo, map)).then(
      (thoughts) => {
        if (!wanted) return;
        kept.set(conductors, { mapNeeds, restNeeds: [readings, meter, acknowledgements], thoughts });
        setLast(thoughts);
        if (!map) mapped({ photo: photo.id, conductors, words, site, map: thoughts.map });
      },
      (error: unknown) => {
        if (wanted) setProblem(toProblem(error));
      },
    );
    return () => {
      wanted = false;
    };
  }, [think, mapped, conductors, words, readings, site, meter, acknowledgements, current]);

  return { thoughts: current && found ? found.thoughts : last, stale: !current, problem };
}
