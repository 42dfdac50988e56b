import { useEffect, useRef } from 'react';
import type { ProblemKind } from '../../../flow';
import { Deck } from '../../parts/deck';
import { ProblemNote } from '../../parts/problem-note';
import { useReading } from '../../state/use-reading';
import { stageWord } from '../../text/stage-word';
import { t } from '../../text/t';
import { ArrivalPreview } from './arrival-preview';

/** Faults of the file itself: reading it again would end the same way. */
const IN_THE_FILE: ReadonlySet<ProblemKind> = new Set([
  'empty file',
  'not a picture',
  'pdf',
  'heic unsupported',
  'truncated picture',
  'picture too small',
  'picture too large',
  'undecodable picture',
]);

/** Covers everything while a photo is read, and stays with the problem when reading fails. Null otherwise. */
export function ReadingScreen() {
  const { arrival, task, again, close } = useReading();
  const heading = useRef<HTMLHeadingElement>(null);
  const shown = arrival !== null;
  useEffect(() => {
    if (shown) heading.current?.focus();
  }, [shown]);
  if (!arrival) return null;
  const { busy, problem } = task;
  const stopped = !busy && !problem;
  const hopeless = problem !== null && IN_THE_FILE.has(problem.kind);
  return (
    <div className="page reading">
      <header className="bar">
        <h1 className="bar-title" ref={heading} tabIndex={-1}>
          {t(problem ? 'screen.reading.failed' : 'screen.reading.title')}
        </h1>
      </header>
      <main className="stack column">
        <ArrivalPreview bytes={arrival.bytes} />
        {busy && (
          <div className="stack">
            <p aria-live="polite">{stageWord(busy.stage)}</p>
            <progress max={1} value={busy.share} aria-label={t('screen.reading.progress')} />
          </div>
        )}
        {problem && <ProblemNote problem={problem} />}
        {stopped && <p role="status">{t('screen.reading.stopped')}</p>}
        <p className="soft">{t('screen.reading.private')}</p>
      </main>
      <Deck>
        <div className="deck-row">
          {busy ? (
            <button type="button" className="key wide" onClick={task.cancel}>
              {t('screen.reading.stop')}
            </button>
          ) : (
            <>
              <button type="button" className={hopeless ? 'key main' : 'key'} onClick={close}>
                {t(hopeless ? 'screen.reading.choose-other' : 'screen.reading.other')}
              </button>
              {!hopeless && (
                <button type="button" className="key main" onClick={again}>
                  {t('screen.reading.again')}
                </button>
              )}
            </>
          )}
        </div>
      </Deck>
    </div>
  );
}
