import { combineColors } from '../../color';
import type { ColorCandidate, Job, SameConductor, SeenConductor } from '../../flow';
import type { Edit } from './edit';

type Statement = Omit<SameConductor, 'together'>;

const isAt = (one: SeenConductor, other: SeenConductor): boolean =>
  one.photo === other.photo && one.conductor === other.conductor;

/** What a photo says of the conductor; undefined when it is not there (any more), or is bare and has no color. */
function saidOf(job: Job, { photo, conductor }: SeenConductor): readonly ColorCandidate[] | undefined {
  const found = job.photos.find((p) => p.id === photo)?.findings.conductors.find((c) => c.id === conductor);
  return found?.covering === 'insulated' ? found.insulation.candidates : undefined;
}

/** The statement with what its photos say now; nothing when fewer than two of them still show the conductor. */
function combined(job: Job, one: Statement): SameConductor[] {
  const seen = one.sightings.flatMap((at) => {
    const said = saidOf(job, at);
    return said ? [{ at, said }] : [];
  });
  if (seen.length < 2) return [];
  return [{ ...one, sightings: seen.map((s) => s.at), together: combineColors(seen.map((s) => s.said)) }];
}

const withStatements = (job: Job, all: readonly Statement[]): Job => ({
  ...job,
  same: all.flatMap((one) => combined(job, one)),
});

/** The job whose statements about one conductor on several photos follow what the photos say now. */
export const stillTheSame = (job: Job): Job => (job.same ? withStatements(job, job.same) : job);

/** The statement that a conductor takes part in, if any. */
export const sameAs = (job: Job, at: SeenConductor): SameConductor | undefined =>
  job.same?.find((one) => one.sightings.some((s) => isAt(s, at)));

/**
 * The job after the user said where else a conductor is seen, or that it is not seen there. What is the same as one is the
 * same as all that one is the same as, but for photos where the conductor in hand is said to be another.
 */
export function sayItIsTheSame(job: Job, edit: Extract<Edit, { type: 'same conductor' }>, at: string): Job {
  const { of, on, by } = edit;
  const mine = sameAs(job, of);
  const other: SeenConductor | null = on.conductor === null ? null : { photo: on.photo, conductor: on.conductor };
  const theirs = other ? sameAs(job, other) : undefined;
  const sightings = (mine?.sightings ?? [of]).filter((s) => s.photo !== on.photo);
  if (other) sightings.push(other);
  const taken = new Set(sightings.map((s) => s.photo));
  sightings.push(...(theirs?.sightings ?? []).filter((s) => !taken.has(s.photo)));
  const rest = (job.same ?? []).filter((one) => one !== mine && one !== theirs);
  return withStatements(job, [...rest, { id: mine?.id ?? `${of.photo}/${of.conductor}/${at}`, sightings, by, at }]);
}
