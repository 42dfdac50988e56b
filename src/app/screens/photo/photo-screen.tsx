import { ConductorTable } from '../../parts/conductor-table';
import { HelpHeading } from '../../parts/help-heading';
import { ProblemNote } from '../../parts/problem-note';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { t } from '../../text/t';
import { CaptureNote } from './capture-note';

/** What was found in the photo. */
export function PhotoScreen({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const { problem, dismiss } = bench.task;
  const { capture, light, references, segmenter } = bench.photo.findings;
  return (
    <div className="stack">
      <HelpHeading on="photo">{t('screen.photo.title', { count: view.conductors.length })}</HelpHeading>
      {problem && (
        <ProblemNote problem={problem}>
          <button type="button" className="key" onClick={dismiss}>
            {t('screen.dismiss')}
          </button>
        </ProblemNote>
      )}
      <CaptureNote capture={capture} light={light} touched={references.length} />
      {segmenter.startsWith('classical') && <p className="note caution">{t('screen.photo.without-network')}</p>}
      {view.conductors.length === 0 ? (
        <p className="note">{t('screen.photo.none')}</p>
      ) : (
        <ConductorTable bench={bench} view={view} />
      )}
    </div>
  );
}
