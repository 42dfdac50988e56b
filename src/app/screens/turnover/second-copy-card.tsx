import { ProblemNote } from '../../parts/problem-note';
import { canPickFolder } from '../../services/pick-folder';
import type { SecondCopy } from '../../state/use-second-copy';
import { dateTime } from '../../text/numbers';
import { t } from '../../text/t';

/** The second copy of a job: in a folder of the user's, or, where there is none, how to keep one by hand. */
export function SecondCopyCard({ copy }: { readonly copy: SecondCopy }) {
  const { place, writing, current, problem } = copy;
  return (
    <section className="card stack" aria-labelledby="second-copy">
      <h2 id="second-copy">{t('screen.copy.title')}</h2>
      <p className="soft">{t('screen.copy.first')}</p>
      {problem && <ProblemNote problem={problem} />}
      {!canPickFolder() && <p className="note">{t('screen.copy.by-hand')}</p>}
      {canPickFolder() && !place && (
        <button type="button" className="key wide" disabled={writing} onClick={copy.choose}>
          {t('screen.copy.choose')}
        </button>
      )}
      {place && (
        <>
          <p role="status">
            {writing
              ? t('screen.copy.writing')
              : place.writtenAt === null
                ? t('screen.copy.never', { folder: place.folder.name })
                : t(current ? 'screen.copy.current' : 'screen.copy.older', {
                    folder: place.folder.name,
                    file: place.file,
                    when: dateTime(place.writtenAt),
                  })}
          </p>
          <div className="row">
            <button type="button" className="key" disabled={writing || current} onClick={copy.copyNow}>
              {t('screen.copy.now')}
            </button>
            <button type="button" className="key" disabled={writing} onClick={copy.stop}>
              {t('screen.copy.stop')}
            </button>
          </div>
        </>
      )}
    </section>
  );
}
