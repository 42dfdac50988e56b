import { Link, useLocation } from 'wouter';
import type { Job } from '../../../flow';
import { Guide } from '../../parts/guide';
import { Icon } from '../../parts/icon';
import { JobPage } from '../../parts/job-page';
import { LongList } from '../../parts/long-list';
import { ScreenHeading } from '../../parts/screen-heading';
import { to } from '../../routes';
import { t } from '../../text/t';
import { ExportKeys } from './export-keys';
import { JobFields } from './job-fields';
import { PhotoSummary } from './photo-summary';
import { RemoveJob } from './remove-job';
import { SameList } from './same-list';
import { SaveNote } from './save-note';

/** Photos drawn at once: each brings a field and a fold of its own. */
const PHOTOS_AT_ONCE = 30;

/** What is kept of the job: who, where, every photo with its conductors, findings and readings. */
export function RecordScreen({ job }: { readonly job: Job }) {
  const [, navigate] = useLocation();
  const last = job.photos.at(-1);
  return (
    <JobPage
      job={job}
      action={
        <button type="button" className="key main" onClick={() => navigate(to.shoot('record', job.id))}>
          <Icon name="lens" />
          {t('screen.record.add-photo')}
        </button>
      }
    >
      <Guide job={job} photo={last} step="record" />
      <ScreenHeading>{t('screen.record.title')}</ScreenHeading>
      <SaveNote />
      <JobFields job={job} />
      <Link className="key wide" href={to.turnover(job.id)}>
        {t('screen.turnover.link')}
      </Link>
      <LongList items={job.photos} step={PHOTOS_AT_ONCE} className="stack plain">
        {(photo, i) => (
          <li key={photo.id}>
            <PhotoSummary job={job} photo={photo} number={i + 1} />
          </li>
        )}
      </LongList>
      <SameList job={job} />
      <ExportKeys job={job} />
      <RemoveJob job={job} onRemoved={() => navigate(to.start)} />
    </JobPage>
  );
}
