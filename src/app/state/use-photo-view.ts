import type {
  ConductorVerdict,
  Job,
  JobPhoto,
  MeterPlan,
  NamedConductor,
  PhaseMap,
  RoleProbability,
  Standing,
  Verdict,
} from '../../flow';
import { judge, planChecks } from '../../verify';
import { colorWord } from '../text/names';
import { meterOptions } from './meter-options';
import { conductorsWithWords } from './with-maps';

/** A photo of a job as the screens show it: what was read, said, inferred and measured, brought together. */
export interface PhotoView {
  readonly conductors: readonly NamedConductor[];
  /** The phase map after the readings. */
  readonly map: PhaseMap;
  readonly plan: MeterPlan;
  readonly verdict: Verdict;
  /** The number a conductor goes by on screen: its place in the list. */
  readonly labelOf: (conductor: string) => string;
  readonly standingOf: (conductor: string) => Standing;
  readonly verdictOf: (conductor: string) => ConductorVerdict | undefined;
  /** Most probable role, if any has been proposed. */
  readonly roleOf: (conductor: string) => RoleProbability | undefined;
  readonly tapeWords: (conductor: NamedConductor) => string;
}

function viewOf(job: Job, photo: JobPhoto): PhotoView {
  const conductors = conductorsWithWords(photo);
  const options = meterOptions(job, photo);
  const prior = photo.findings.map;
  const verdict = judge(prior, photo.readings, options);
  const plan = planChecks(prior, photo.readings, options);
  const labels = new Map(conductors.map((c, i) => [c.id, String(i + 1)]));
  const verdicts = new Map(verdict.conductors.map((v) => [v.conductor, v]));
  const roles = new Map(verdict.map.assignments.map((a) => [a.conductor, a.roles[0]]));
  return {
    conductors,
    map: verdict.map,
    plan,
    verdict,
    labelOf: (id) => labels.get(id) ?? '?',
    standingOf: (id) => verdicts.get(id)?.standing ?? 'by color',
    verdictOf: (id) => verdicts.get(id),
    roleOf: (id) => roles.get(id),
    tapeWords: (c) => c.tape.map((t) => colorWord(t.name)).join(', '),
  };
}

/** Views already made. Judging is the costly part, and several screens ask for the same photo. */
const made = new WeakMap<JobPhoto, { readonly needs: readonly unknown[]; readonly view: PhotoView }>();

/** The view of a photo, made anew only when something it rests on has changed. */
export function usePhotoView(job: Job, photo: JobPhoto): PhotoView {
  const needs = [job.site, job.meter, job.acknowledgements];
  const known = made.get(photo);
  if (known?.needs.every((need, i) => need === needs[i])) return known.view;
  const view = viewOf(job, photo);
  made.set(photo, { needs, view });
  return view;
}
