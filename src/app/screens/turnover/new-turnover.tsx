import { useEffect, useRef } from 'react';
import { useLocation } from 'wouter';
import { to } from '../../routes';
import { useServices } from '../../services/context';
import { newJob } from '../../state/new-job';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';

/** Begins a turnover without a photo: a new job, opened at its schedule. */
export function NewTurnover() {
  const { newId, now } = useServices();
  const { open } = useOpenJob();
  const [, navigate] = useLocation();
  const begun = useRef(false);
  useEffect(() => {
    if (begun.current) return;
    begun.current = true;
    const at = now();
    const title = t('screen.turnover.untitled', { date: at.slice(0, 10) });
    const job = newJob({ id: newId(), title, by: '', createdAt: at, demo: false });
    open(job);
    navigate(to.turnover(job.id, 'schedule'), { replace: true });
  }, [newId, now, open, navigate]);
  return (
    <main className="page-wait" aria-busy={true}>
      <p role="status">{t('screen.job.opening')}</p>
    </main>
  );
}
