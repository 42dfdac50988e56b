import { Link } from 'wouter';
import type { Job } from '../../flow';
import { to } from '../routes';
import { t } from '../text/t';
import { Icon } from './icon';
import { SaveMark } from './save-mark';
import { ThemeKey } from './theme-key';

/** Top of every screen of a job: where we are and whether it is kept. Nothing here is needed while measuring. */
export function JobBar({ job }: { readonly job: Job }) {
  return (
    <div className="bar">
      <Link className="key" href={to.start} aria-label={t('screen.job.leave')}>
        <Icon name="back" />
      </Link>
      <p className="bar-title">
        <span className="bar-name">{job.title}</span>
        {job.demo && <span className="invented">{t('screen.job.invented')}</span>}
      </p>
      <SaveMark />
      <ThemeKey />
    </div>
  );
}
