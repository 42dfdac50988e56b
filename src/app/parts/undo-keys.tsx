import { useOpenJob } from '../state/use-job';
import { t } from '../text/t';
import { Icon } from './icon';

/** Undo and redo of every edit of the job. */
export function UndoKeys() {
  const { canUndo, canRedo, undo, redo } = useOpenJob();
  return (
    <>
      <button type="button" className="key tool" disabled={!canUndo} onClick={undo}>
        <Icon name="undo" />
        {t('screen.undo')}
      </button>
      <button type="button" className="key tool" disabled={!canRedo} onClick={redo}>
        <Icon name="redo" />
        {t('screen.redo')}
      </button>
    </>
  );
}
