import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { Job, JobPhoto } from '../../../flow';
import { Cable } from '../../parts/cable';
import { StandingMark } from '../../parts/standing-mark';
import { to } from '../../routes';
import { useOpenJob } from '../../state/use-job';
import { usePhotoView } from '../../state/use-photo-view';
import { roleWord } from '../../text/names';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';
import { FindingList } from '../map/finding-list';
import { ReadingTable } from '../meter/reading-table';

interface PhotoSummaryProps {
  readonly job: Job;
  readonly photo: JobPhoto;
  /** Place in the job, from 1. */
  readonly number: number;
}

/** One photo as the record keeps it. */
export function PhotoSummary({ job, photo, number }: PhotoSummaryProps) {
  const view = usePhotoView(job, photo);
  const { edit } = useOpenJob();
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
      <table className="conductors">
        <caption className="unseen">{t('screen.photo.table')}</caption>
        <thead>
          <tr>
            <th scope="col">{t('screen.col.number')}</th>
            <th scope="col">{t('screen.col.claim')}</th>
            <th scope="col">{t('screen.col.standing')}</th>
          </tr>
        </thead>
        <tbody>
          {view.conductors.map((c) => {
            const role = view.roleOf(c.id);
            return (
              <tr key={c.id}>
                <td>
                  <span className="tag">{view.labelOf(c.id)}</span>
                </td>
                <th scope="row">
                  {c.covering === 'bare' ? (
                    <b>{t('screen.color.bare')}</b>
                  ) : (
                    <Cable insulation={c.insulation} stripe={c.stripe} word={c.userWord} />
                  )}
                  <small>
                    {role
                      ? t('screen.photo.role', { role: roleWord(role.role), share: percent(role.probability) })
                      : t('screen.photo.no-role')}
                  </small>
                </th>
                <td className="standing-cell">
                  <StandingMark standing={view.standingOf(c.id)} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <FindingList findings={view.map.findings} labelOf={view.labelOf} />
      <ReadingTable photo={photo} view={view} onAgain={null} />
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
