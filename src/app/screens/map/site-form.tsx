import { useOpenJob } from '../../state/use-job';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { GroupFields } from './group-fields';
import { LegendFields } from './legend-fields';
import { PhasesByField } from './phases-by-field';
import { SpaceFields } from './space-fields';
import { SystemFields } from './system-fields';
import { TagFields } from './tag-fields';

/** What the user knows and the photo cannot show. Every change infers the map anew and can be undone. */
export function SiteForm({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const { edit } = useOpenJob();
  const { site } = bench.job;
  const put = (next: typeof site): void => edit({ type: 'site', site: next });
  const change = (part: Partial<typeof site>): void => put({ ...site, ...part });
  return (
    <section className="stack" aria-labelledby="site">
      <h2 id="site">{t('screen.site.title')}</h2>
      <p className="soft">{t('screen.site.how')}</p>
      <SystemFields site={site} onChange={change} />
      <PhasesByField site={site} onSite={put} />
      <SpaceFields site={site} view={view} onChange={change} onSite={put} />
      <TagFields site={site} view={view} onSite={put} />
      <GroupFields site={site} view={view} onChange={change} />
      <LegendFields site={site} onChange={change} />
    </section>
  );
}
