import { judgeComparison } from '../../../color';
import type { JobPhoto } from '../../../flow';
import type { PhotoView } from '../../state/use-photo-view';
import { dateTime } from '../../text/numbers';
import { say } from '../../text/say';
import { t } from '../../text/t';

/** Comparisons of two conductors that the user kept. */
export function ComparisonList({ photo, view }: { readonly photo: JobPhoto; readonly view: PhotoView }) {
  if (!photo.comparisons?.length) return null;
  return (
    <section className="stack">
      <h3>{t('screen.compare.list')}</h3>
      <ul className="stack plain">
        {photo.comparisons.map((one) => (
          <li key={one.conductors.join(' ')}>
            <b>
              {t('screen.compare.pair', {
                first: view.labelOf(one.conductors[0]),
                second: view.labelOf(one.conductors[1]),
              })}
            </b>{' '}
            {say(judgeComparison(one))}
            <small className="soft block">{t('screen.compare.kept', { by: one.by, when: dateTime(one.at) })}</small>
          </li>
        ))}
      </ul>
    </section>
  );
}
