import type { JobPhoto, Reading } from '../../../flow';
import { TableHead } from '../../parts/table-head';
import type { PhotoView } from '../../state/use-photo-view';
import { leadsWord } from '../../text/leads-word';
import { dateTime } from '../../text/numbers';
import { readingWord } from '../../text/reading-word';
import { t } from '../../text/t';

interface ReadingTableProps {
  readonly photo: JobPhoto;
  readonly view: PhotoView;
  /** Null where readings are only listed. */
  readonly onAgain: ((reading: Reading) => void) | null;
  readonly onTakeBack?: ((reading: Reading) => void) | null;
}

/** Every reading ever taken of this photo's conductors; replaced ones and those taken back stay, marked. */
export function ReadingTable({ photo, view, onAgain, onTakeBack }: ReadingTableProps) {
  if (photo.readings.length === 0) return null;
  const replaced = new Set(photo.readings.flatMap((r) => (r.supersedes ? [r.supersedes] : [])));
  const byId = new Map(photo.readings.map((r) => [r.id, r]));
  const counts = (r: Reading): boolean => !replaced.has(r.id) && !r.takenBack;
  return (
    <section aria-labelledby="readings">
      <h2 id="readings">{t('screen.meter.readings')}</h2>
      <table className="conductors">
        <TableHead
          columns={['screen.col.value', 'screen.col.between', ...(onAgain ? (['screen.col.again'] as const) : [])]}
        />
        <tbody>
          {photo.readings.toReversed().map((r) => (
            <tr key={r.id}>
              <th scope="row">
                <b>{counts(r) ? readingWord(r) : <s>{readingWord(r)}</s>}</b>
                <OldValue of={r.supersedes === undefined ? undefined : byId.get(r.supersedes)} />
                {replaced.has(r.id) && <small className="block">{t('screen.meter.replaced')}</small>}
                {r.takenBack && (
                  <small className="block">
                    {t('screen.meter.taken-back', { by: r.takenBack.by, when: dateTime(r.takenBack.at) })}
                  </small>
                )}
                {r.confirmed && <small>{t('screen.meter.confirmed')}</small>}
              </th>
              <td>
                {leadsWord(r, view.labelOf)}
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
                  {counts(r) && (
                    <div className="stack">
                      <button type="button" className="key" onClick={() => onAgain(r)}>
                        {t('screen.meter.retake')}
                      </button>
                      {onTakeBack && (
                        <button type="button" className="key" onClick={() => onTakeBack(r)}>
                          {t('screen.meter.take-back')}
                        </button>
                      )}
                    </div>
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

function OldValue({ of }: { readonly of: Reading | undefined }) {
  return of ? <small className="block">{t('screen.meter.replaces', { value: readingWord(of) })}</small> : null;
}
