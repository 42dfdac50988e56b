import { useOpenJob } from '../state/use-job';
import { t } from '../text/t';
import { ToolKey } from './tool-key';

/** Steps that can be taken back and made again. */
export interface Steps {
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly undo: () => void;
  readonly redo: () => void;
}

/** Undo and redo of every edit of the job; of `steps` on a screen whose touches are not edits yet. */
export function UndoKeys({ steps }: { readonly steps?: Steps | undefined }) {
  const job = useOpenJob();
  const { canUndo, canRedo, undo, redo } = steps ?? job;
  return (
    <>
      <ToolKey icon="undo" label={t('screen.undo')} disabled={!canUndo} onPress={undo} />
      <ToolKey icon="redo" label={t('screen.redo')} disabled={!canRedo} onPress={redo} />
    </>
  );
}
