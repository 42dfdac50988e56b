import { useMemo } from 'react';
import type {
  ConductorVerdict,
  Job,
  JobPhoto,
  NamedConductor,
  PhaseMap,
  Problem,
  RoleProbability,
  Standing,
  Verdict,
} from '../../flow';
import { roleMarginals } from '../../identify';
import { colorWord } from '../text/names';
import { conductorsWithWords } from '../thinking/request';
import type { Conclusion } from '../thinking/think';
import { type ConclusionState, useConclusion } from '../thinking/use-conclusion';

/** A photo of a job as the screens show it: what was read, said, inferred and measured, brought together. */
export interface PhotoView {
  readonly conductors: readonly NamedConductor[];
  /** The phase map after the readings. */
  readonly map: PhaseMap;
  readonly verdict: Verdict;
  /** Something has changed and is still being thought through. */
  readonly stale: boolean;
  /** What all of this rests on; null until the photo has been thought through once. */
  readonly conclusion: Conclusion | null;
  readonly problem: Problem | null;
  /** Thinks it through once more after a failure. */
  readonly again: () => void;
  /** The number a conductor goes by on screen: its place in the list. */
  readonly labelOf: (conductor: string) => string;
  readonly standingOf: (conductor: string) => Standing;
  readonly verdictOf: (conductor: string) => ConductorVerdict | undefined;
  /** Most probable role whatever the system, if any has been proposed: a neutral that two systems share is one neutral. */
  readonly roleOf: (conductor: string) => Pick<RoleProbability, 'role' | 'probability'> | undefined;
  readonly tapeWords: (conductor: NamedConductor) => string;
}

/** Before the first conclusion: the map as it was kept, nothing proved. */
const notYet = (photo: JobPhoto): Conclusion => {
  const { map } = photo.findings;
  return {
    map,
    verdict: { conductors: [], map, explanations: [], changes: [] },
  };
};

export function viewOf(photo: JobPhoto, { conclusion, stale, problem, again }: ConclusionState): PhotoView {
  const conductors = conductorsWithWords(photo);
  const { verdict } = conclusion ?? notYet(photo);
  const labels = new Map(conductors.map((c, i) => [c.id, String(i + 1)]));
  const verdicts = new Map(verdict.conductors.map((v) => [v.conductor, v]));
  const roles = new Map(verdict.map.assignments.map((a) => [a.conductor, roleMarginals(a)[0]]));
  return {
    conductors,
    map: verdict.map,
    verdict,
    stale,
    conclusion,
    problem,
    again,
    labelOf: (id) => labels.get(id) ?? '?',
    // What rests on the old state may no longer hold: nothing is called metered until it has been judged again.
    standingOf: (id) => (stale ? 'by color' : (verdicts.get(id)?.standing ?? 'by color')),
    verdictOf: (id) => verdicts.get(id),
    roleOf: (id) => roles.get(id),
    tapeWords: (c) => (c.userWord?.tape ? [c.userWord.tape] : c.tape.map((t) => t.name)).map(colorWord).join(', '),
  };
}

export function usePhotoView(job: Job, photo: JobPhoto): PhotoView {
  const { conclusion, stale, problem, again } = useConclusion(job, photo);
  return useMemo(
    () => viewOf(photo, { conclusion, stale, problem, again }),
    [photo, conclusion, stale, problem, again],
  );
}
