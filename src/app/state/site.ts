import type { JobPhoto, SiteKnowledge } from '../../flow';

export const EMPTY_SITE: SiteKnowledge = { jurisdiction: 'US', systems: [], legend: [], groups: [], spaces: {} };

/** What is known of the site, narrowed to the conductors of one photo. Conductor ids are unique within a job. */
export function siteOfPhoto(site: SiteKnowledge, photo: JobPhoto): SiteKnowledge {
  const here = new Set(photo.findings.conductors.map((c) => c.id));
  return {
    ...site,
    groups: site.groups
      .map((g) => ({ ...g, conductors: g.conductors.filter((c) => here.has(c)) }))
      .filter((g) => g.conductors.length > 0),
    spaces: Object.fromEntries(Object.entries(site.spaces).filter(([id]) => here.has(id))),
  };
}
