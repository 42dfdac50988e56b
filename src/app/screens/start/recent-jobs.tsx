import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import type { Problem } from '../../../flow';
import type { JobSummary } from '../../../record';
import { Icon } from '../../parts/icon';
import { LongList } from '../../parts/long-list';
import { ProblemNote } from '../../parts/problem-note';
import { to } from '../../routes';
import { useServices } from '../../services/context';
import { toProblem } from '../../state/to-problem';
import { dateTime } from '../../text/numbers';
import { t } from '../../text/t';
import { placeWord } from '../turnover/termination-words';

const JOBS_AT_ONCE = 20;

/** Jobs kept on this device, newest first. */
export function RecentJobs() {
  const { store } = useServices();
  const [jobs, setJobs] = useState<readonly JobSummary[] | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  useEffect(() => {
    store.list().then(setJobs, (error: unknown) => setProblem(toProblem(error)));
  }, [store]);

  if (problem) return <ProblemNote problem={problem} />;
  if (!jobs || jobs.length === 0) return null;
  return (
    <section className="stack" aria-labelledby="recent">
      <h2 id="recent">{t('screen.start.recent')}</h2>
      <LongList items={jobs} step={JOBS_AT_ONCE} className="stack recent">
        {(job) => (
          <li key={job.id} className="stack">
            <Link className="key plain-row" href={to.job(job.id)}>
              <b>{job.title}</b>
              <small>
                {t(job.demo ? 'screen.start.job-demo' : 'screen.start.job', {
                  photos: job.photos,
                  when: dateTime(job.createdAt),
                })}
              </small>
            </Link>
            {job.next && (
              <Link className="key wide" href={to.shootAt(job.id, job.next.id)}>
                <Icon name="lens" />
                {t('screen.start.next', { place: placeWord(job.next) })}
              </Link>
            )}
          </li>
        )}
      </LongList>
    </section>
  );
}
