import type { Job, JobPhoto, NamedConductor, PhaseMap, SiteKnowledge } from '../../flow';

/** A phase map with what it was inferred from. */
export interface Mapped {
  readonly photo: string;
  readonly conductors: readonly NamedConductor[];
  readonly words: JobPhoto['words'];
  readonly site: SiteKnowledge;
  readonly map: PhaseMap;
}

/** Puts a newly inferred map into its photo, unless what it was inferred from has changed meanwhile. No step of undo. */
export function withMap(job: Job, { photo, conductors, words, site, map }: Mapped): Job {
  if (job.site !== site) return job;
  return {
    ...job,
    photos: job.photos.map((p) =>
      p.id === photo && p.findings.conductors === conductors && p.words === words
        ? { ...p, findings: { ...p.findings, map } }
        : p,
    ),
  };
}
