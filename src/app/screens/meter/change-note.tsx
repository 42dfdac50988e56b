import type { JobPhoto } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { readingWord } from '../../text/reading-word';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

/** What the last reading did, said the moment it is in. */
export function ChangeNote({ photo, view }: { readonly photo: JobPhoto; readonly view: PhotoView }) {
  const last = photo.readings.at(-1);
  const { changes } = view.verdict;
  return (
    <div aria-live="polite">
      {last && (
        <div className="note">
          <strong>{t('screen.meter.last', { value: readingWord(last) })}</strong>
          {changes.length === 0 ? (
            <p>{t('screen.meter.no-change')}</p>
          ) : (
            <ul className="plain-list">
              {changes.map((change) => (
                <li key={`${change.code}-${JSON.stringify(change.values)}`}>{sayOf(change, view.labelOf)}</li>
              ))}
            </ul>
          )}
        </div>
      )}
    </div>
  );
}
