import type { Findings, Job, JobPhoto, NamedConductor } from '../../flow';
import { EMPTY_SITE } from './site';

interface NewJob {
  readonly id: string;
  readonly title: string;
  readonly by: string;
  readonly createdAt: string;
  readonly demo: boolean;
}

export const newJob = (start: NewJob): Job => ({
  ...start,
  schema: 3,
  site: EMPTY_SITE,
  photos: [],
  acknowledgements: [],
});

/**
 * A photo for a job. Conductor ids are stable only within a photo, while what is known of the site refers to them
 * job-wide; from the second photo on (`index` 1) they therefore get the photo's number in front.
 */
export function newJobPhoto(id: string, findings: Findings, index: number): JobPhoto {
  const mark = (conductor: string): string => (index === 0 ? conductor : `${index + 1}.${conductor}`);
  const conductors: NamedConductor[] = findings.conductors.map((c) => ({
    ...c,
    id: mark(c.id),
    crossings: c.crossings.map((x) => ({ ...x, with: mark(x.with) })),
  }));
  return { id, findings: { ...findings, conductors }, words: {}, readings: [], note: '' };
}
