import type { JobPhoto, SiteKnowledge } from '../../flow';

export const EMPTY_SITE: SiteKnowledge = { jurisdiction: 'US', systems: [], legend: [], groups: [], spaces: {} };

/** What is known of the site, narrowed to the conductors of one photo. Conductor ids are unique within a job. */
export function siteOfPhoto(site: SiteKnowledge, photo: JobPhoto): SiteKnowledge {
  const here = new Set(photo.findings.conductors.map((c) => c.id));
  const ofPhoto = <T>(all: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(all).filter(([id]) => here.has(id)));
  return {
    ...site,
    groups: site.groups
      .map((g) => ({ ...g, conductors: g.conductors.filter((c) => here.has(c)) }))
      .filter((g) => g.conductors.length > 0),
    spaces: ofPhoto(site.spaces),
    ...(site.tags && { tags: ofPhoto(site.tags) }),
  };
}

/** What is known of the site before anything was said of a photo's conductors. */
export function siteOfNewPhoto(site: SiteKnowledge): SiteKnowledge {
  const { tags: _, ...rest } = site;
  return { ...rest, groups: [], spaces: {} };
}
