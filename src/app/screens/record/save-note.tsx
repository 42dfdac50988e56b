import { ProblemNote } from '../../parts/problem-note';
import { useOpenJob } from '../../state/use-job';
import { t } from '../../text/t';

/** Says plainly whether the record is on the device. */
export function SaveNote() {
  const { save, saveAgain } = useOpenJob();
  if (save.kind !== 'failed') {
    return (
      <p className="note" role="status">
        <strong>{t(save.kind === 'saved' ? 'screen.record.saved' : 'screen.record.saving')}</strong>
        {t('screen.record.where')}
      </p>
    );
  }
  return (
    <ProblemNote problem={save.problem}>
      <button type="button" className="key" onClick={saveAgain}>
        {t('screen.record.save-again')}
      </button>
    </ProblemNote>
  );
}
