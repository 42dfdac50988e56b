import { t } from '../text/t';
import { Icon } from './icon';

/** Stands on every screen of a job: color is a hint, only the meter proves. */
export function HintBanner() {
  return (
    <p className="hint">
      <Icon name="warn" />
      <span>{t('screen.hint')}</span>
    </p>
  );
}
