import { useSyncExternalStore } from 'react';
import { Link } from 'wouter';
import type { Job, JobPhoto } from '../../flow';
import { to } from '../routes';
import { endGuide, guideOn, onGuide } from '../state/guide';
import { t } from '../text/t';
import { Icon } from './icon';
import type { Step } from './step-nav';

interface GuideProps {
  readonly job: Job;
  readonly photo: JobPhoto | undefined;
  readonly step: Step;
}

/** The order of the walk: suspect, look, name, measure, keep. */
const WALK: readonly Step[] = ['map', 'photo', 'conductor', 'meter', 'record'];

/** One short note a step on a practice scene, each with the key to the next; a minute in all. */
export function Guide({ job, photo, step }: GuideProps) {
  const on = useSyncExternalStore(onGuide, guideOn);
  if (!on || !job.demo || !photo) return null;
  const at = WALK.indexOf(step);
  const next = WALK[at + 1];
  const first = photo.findings.conductors[0]?.id;
  const href = {
    map: to.map(job.id, photo.id),
    photo: to.photo(job.id, photo.id),
    conductor: first ? to.conductor(job.id, photo.id, first) : to.photo(job.id, photo.id),
    meter: to.meter(job.id, photo.id),
    record: to.record(job.id),
  };
  return (
    <aside className="guide stack" aria-label={t('screen.guide.label')}>
      <p>
        <b>{t('screen.guide.at', { at: at + 1, of: WALK.length })}</b> {t(`screen.guide.${step}`)}
      </p>
      <div className="row">
        {next ? (
          <Link className="key" href={href[next]}>
            {t(`screen.guide.to-${next as Exclude<Step, 'map'>}`)}
            <Icon name="open" />
          </Link>
        ) : (
          <Link className="key" href={to.start} onClick={endGuide}>
            {t('screen.guide.end')}
          </Link>
        )}
        {next && (
          <button type="button" className="key plain" onClick={endGuide}>
            {t('screen.guide.close')}
          </button>
        )}
      </div>
    </aside>
  );
}
