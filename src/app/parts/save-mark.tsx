import { useOpenJob } from '../state/use-job';
import { t } from '../text/t';
import { Icon } from './icon';

/** Says whether the job on screen is the one kept on the device. */
export function SaveMark() {
  const { save, saveAgain } = useOpenJob();
  if (save.kind === 'failed') {
    return (
      <button type="button" className="key save-failed" onClick={saveAgain}>
        <Icon name="warn" />
        {t('screen.save.failed')}
      </button>
    );
  }
  return (
    <p className="save-mark" role="status">
      {save.kind === 'saved' && <Icon name="check" />}
      <span className={save.kind === 'saved' ? 'save-word' : undefined}>
        {t(save.kind === 'saved' ? 'screen.save.saved' : 'screen.save.saving')}
      </span>
    </p>
  );
}
