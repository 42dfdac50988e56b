import type { Job } from '../../flow';
import type { Standings } from '../../record';
import type { Think } from './client';
import { requestFor } from './request';

/** How far every conductor of a job is proved, photo by photo, judged anew for an export. */
export async function standingsOf(job: Job, think: Think): Promise<Standings> {
  const verdicts: [string, Awaited<ReturnType<Think>>['verdict']['conductors']][] = [];
  for (const photo of job.photos) {
    const { verdict } = await think(requestFor(job, photo, null));
    verdicts.push([photo.id, verdict.conductors]);
  }
  return new Map(verdicts);
}
