import { Link } from 'wouter';
import { to } from '../routes';
import { t } from '../text/t';
import { Icon } from './icon';

export type Step = 'photo' | 'conductor' | 'map' | 'meter' | 'record';

interface StepNavProps {
  readonly job: string;
  /** Null when the job has no photo yet: only the record can be opened. */
  readonly photo: string | null;
  readonly current: Step;
}

/** The four places of a job in the order of the work. */
export function StepNav({ job, photo, current }: StepNavProps) {
  const steps = [
    ...(photo
      ? ([
          { step: 'photo', icon: 'picture', code: 'screen.step.photo', href: to.photo(job, photo) },
          { step: 'map', icon: 'map', code: 'screen.step.map', href: to.map(job, photo) },
          { step: 'meter', icon: 'meter', code: 'screen.step.meter', href: to.meter(job, photo) },
        ] as const)
      : []),
    { step: 'record', icon: 'keep', code: 'screen.step.record', href: to.record(job) } as const,
  ];
  const shown = current === 'conductor' ? 'photo' : current;
  return (
    <nav className="steps" aria-label={t('screen.step.nav')}>
      {steps.map(({ step, icon, code, href }) => (
        <Link key={step} href={href} aria-current={step === shown ? 'page' : undefined}>
          <Icon name={icon} />
          {t(code)}
        </Link>
      ))}
    </nav>
  );
}
