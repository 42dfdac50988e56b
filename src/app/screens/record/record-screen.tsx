import { Link, useLocation } from 'wouter';
import type { Job } from '../../../flow';
import { Deck } from '../../parts/deck';
import { Guide } from '../../parts/guide';
import { HintBanner } from '../../parts/hint-banner';
import { Icon } from '../../parts/icon';
import { JobBar } from '../../parts/job-bar';
import { ScreenHeading } from '../../parts/screen-heading';
import { StepNav } from '../../parts/step-nav';
import { UndoKeys } from '../../parts/undo-keys';
import { to } from '../../routes';
import { t } from '../../text/t';
import { ExportKeys } from './export-keys';
import { JobFields } from './job-fields';
import { PhotoSummary } from './photo-summary';
import { RemoveJob } from './remove-job';
import { SaveNote } from './save-note';

/** What is kept of the job: who, where, every photo with its conductors, findings and readings. */
export function RecordScreen({ job }: { readonly job: Job }) {
  const [, navigate] = useLocation();
  const last = job.photos.at(-1);
  return (
    <div className="page record">
      <header className="bar-area">
        <JobBar job={job} />
        <HintBanner />
      </header>
      <main className="stack column">
        <Guide job={job} photo={last} step="record" />
        <ScreenHeading>{t('screen.record.title')}</ScreenHeading>
        <SaveNote />
        <JobFields job={job} />
        <Link className="key wide" href={to.turnover(job.id)}>
          {t('screen.turnover.link')}
        </Link>
        {job.photos.map((photo, i) => (
          <PhotoSummary key={photo.id} job={job} photo={photo} number={i + 1} />
        ))}
        <ExportKeys job={job} />
        <RemoveJob job={job} onRemoved={() => navigate(to.start)} />
      </main>
      <Deck>
        <div className="deck-row">
          <UndoKeys />
          <button type="button" className="key main" onClick={() => navigate(to.shoot('record', job.id))}>
            <Icon name="lens" />
            {t('screen.record.add-photo')}
          </button>
        </div>
        <StepNav job={job.id} photo={last?.id ?? null} current="record" />
      </Deck>
    </div>
  );
}
