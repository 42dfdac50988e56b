import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { Job, JobPhoto } from '../../../flow';
import { to } from '../../routes';
import { useOpenJob } from '../../state/use-job';
import { usePhotoView } from '../../state/use-photo-view';
import { t } from '../../text/t';
import { FindingList } from '../map/finding-list';
import { ReadingTable } from '../meter/reading-table';
import { ComparisonList } from './comparison-list';
import { RecordTable } from './record-table';

interface PhotoSummaryProps {
  readonly job: Job;
  readonly photo: JobPhoto;
  /** Place in the job, from 1. */
  readonly number: number;
}

/** One photo as the record keeps it. What is costly to work out waits until it is opened. */
export function PhotoSummary({ job, photo, number }: PhotoSummaryProps) {
  const { edit } = useOpenJob();
  const [open, setOpen] = useState(number === job.photos.length);
  const [note, setNote] = useState(photo.note);
  useEffect(() => setNote(photo.note), [photo.note]);
  return (
    <section className="card stack" aria-labelledby={`photo-${photo.id}`}>
      <h2 id={`photo-${photo.id}`}>
        <Link href={to.photo(job.id, photo.id)}>
          {t('screen.record.photo', { number, name: photo.findings.photo.name })}
        </Link>
      </h2>
      <p className="soft mono hash">{t('screen.record.hash', { hash: photo.findings.photo.sha256 })}</p>
      <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>{t('screen.record.conductors')}</summary>
        {open && <PhotoContents job={job} photo={photo} />}
      </details>
      <label className="field">
        <span>{t('screen.record.note')}</span>
        <textarea
          rows={2}
          value={note}
          onChange={(e) => setNote(e.target.value)}
          onBlur={() => note !== photo.note && edit({ type: 'note', photo: photo.id, note })}
        />
      </label>
    </section>
  );
}

function PhotoContents({ job, photo }: { readonly job: Job; readonly photo: JobPhoto }) {
  const view = usePhotoView(job, photo);
  return (
    <div className="stack">
      <RecordTable view={view} />
      <ComparisonList photo={photo} view={view} />
      <FindingList findings={view.map.findings} labelOf={view.labelOf} />
      <ReadingTable photo={photo} view={view} onAgain={null} />
    </div>
  );
}
