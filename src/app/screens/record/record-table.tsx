import { Cable } from '../../parts/cable';
import { ConductorHead } from '../../parts/conductor-head';
import { StandingMark } from '../../parts/standing-mark';
import type { PhotoView } from '../../state/use-photo-view';
import { roleWord } from '../../text/names';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';

/** The conductors of a photo as the record keeps them. */
export function RecordTable({ view }: { readonly view: PhotoView }) {
  return (
    <table className="conductors">
      <caption className="unseen">{t('screen.photo.table')}</caption>
      <ConductorHead says="screen.col.claim" />
      <tbody>
        {view.conductors.map((c) => {
          const role = view.roleOf(c.id);
          return (
            <tr key={c.id}>
              <td>
                <span className="tag">{view.labelOf(c.id)}</span>
              </td>
              <th scope="row">
                {c.covering === 'bare' ? (
                  <b>{t('screen.color.bare')}</b>
                ) : (
                  <Cable insulation={c.insulation} stripe={c.stripe} word={c.userWord} />
                )}
                <small>
                  {role
                    ? t('screen.photo.role', { role: roleWord(role.role), share: percent(role.probability) })
                    : t('screen.photo.no-role')}
                </small>
              </th>
              <td className="standing-cell">
                <StandingMark standing={view.standingOf(c.id)} />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
