import type { Job, JobPhoto } from '../../../flow';
import { beyondNormal } from '../../../verify';
import { meterOptions } from '../../state/meter-options';
import type { PhotoView } from '../../state/use-photo-view';
import { readingWord } from '../../text/reading-word';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface ChangeNoteProps {
  readonly job: Job;
  readonly photo: JobPhoto;
  readonly view: PhotoView;
}

/** What the last reading did, said the moment it is in. */
export function ChangeNote({ job, photo, view }: ChangeNoteProps) {
  const last = photo.readings.at(-1);
  const beyond = last && !last.takenBack ? beyondNormal(last, view.map, meterOptions(job, photo)) : null;
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
          {beyond && <p>{sayOf(beyond, view.labelOf)}</p>}
        </div>
      )}
    </div>
  );
}
