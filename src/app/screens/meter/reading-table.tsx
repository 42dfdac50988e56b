import type { JobPhoto, Reading } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { dateTime } from '../../text/numbers';
import { pointWord } from '../../text/point-word';
import { readingWord } from '../../text/reading-word';
import { t } from '../../text/t';

interface ReadingTableProps {
  readonly photo: JobPhoto;
  readonly view: PhotoView;
  /** Null where readings are only listed. */
  readonly onAgain: ((reading: Reading) => void) | null;
}

/** Every reading ever taken of this photo's conductors; replaced ones stay, marked. */
export function ReadingTable({ photo, view, onAgain }: ReadingTableProps) {
  if (photo.readings.length === 0) return null;
  const replaced = new Set(photo.readings.flatMap((r) => (r.supersedes ? [r.supersedes] : [])));
  return (
    <section aria-labelledby="readings">
      <h2 id="readings">{t('screen.meter.readings')}</h2>
      <table className="conductors">
        <thead>
          <tr>
            <th scope="col">{t('screen.col.value')}</th>
            <th scope="col">{t('screen.col.between')}</th>
            {onAgain && <th scope="col">{t('screen.col.again')}</th>}
          </tr>
        </thead>
        <tbody>
          {photo.readings.toReversed().map((r) => (
            <tr key={r.id}>
              <th scope="row">
                <b>{replaced.has(r.id) ? <s>{readingWord(r)}</s> : readingWord(r)}</b>
                {r.confirmed && <small>{t('screen.meter.confirmed')}</small>}
              </th>
              <td>
                {t('screen.meter.between', {
                  one: pointWord(r.from, view.labelOf),
                  two: pointWord(r.to, view.labelOf),
                })}
                <small className="soft block">
                  {t('screen.meter.who', {
                    by: r.by,
                    when: dateTime(r.at),
                    function: t(`screen.function.${r.function}`),
                  })}
                  {r.condition && ` · ${t(`screen.condition.${r.condition}`)}`}
                </small>
              </td>
              {onAgain && (
                <td>
                  {replaced.has(r.id) ? (
                    <small>{t('screen.meter.replaced')}</small>
                  ) : (
                    <button type="button" className="key" onClick={() => onAgain(r)}>
                      {t('screen.meter.retake')}
                    </button>
                  )}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
