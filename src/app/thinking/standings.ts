import type { ConductorVerdict, Job } from '../../flow';
import type { Standings } from '../../record';
import type { Thinker } from './client';
import { requestFor } from './request';

/** How far every conductor of a job is proved, photo by photo, judged anew for an export. */
export async function standingsOf(job: Job, thinker: Thinker): Promise<Standings> {
  const verdicts: [string, readonly ConductorVerdict[]][] = [];
  for (const photo of job.photos) {
    const { verdict } = await thinker.conclude(requestFor(job, photo, null));
    verdicts.push([photo.id, verdict.conductors]);
  }
  return new Map(verdicts);
}
