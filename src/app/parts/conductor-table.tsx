import { Link } from 'wouter';
import { to } from '../routes';
import type { PhotoView } from '../state/use-photo-view';
import type { Workbench } from '../state/use-workbench';
import { roleWord } from '../text/names';
import { percent } from '../text/numbers';
import { t } from '../text/t';
import { Cable } from './cable';
import { ConductorHead } from './conductor-head';
import { StandingMark } from './standing-mark';

/** The conductors of a photo: what the outlines on the picture say, in words. */
export function ConductorTable({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  return (
    <table className="conductors">
      <caption className="unseen">{t('screen.photo.table')}</caption>
      <ConductorHead says="screen.col.insulation" />
      <tbody>
        {view.conductors.map((conductor) => {
          const role = view.roleOf(conductor.id);
          const label = view.labelOf(conductor.id);
          return (
            <tr key={conductor.id} data-selected={conductor.id === bench.selected}>
              <td>
                <button
                  type="button"
                  className="key tag-key"
                  aria-pressed={conductor.id === bench.selected}
                  aria-label={t('screen.photo.select', { label })}
                  onClick={() => bench.select(conductor.id === bench.selected ? null : conductor.id)}
                >
                  {label}
                </button>
              </td>
              <th scope="row">
                <Link className="row-link" href={to.conductor(bench.job.id, bench.photo.id, conductor.id)}>
                  {conductor.covering === 'bare' ? (
                    <b>{t('screen.color.bare')}</b>
                  ) : (
                    <Cable insulation={conductor.insulation} stripe={conductor.stripe} word={conductor.userWord} />
                  )}
                  {(conductor.userWord?.tape || (conductor.userWord?.tape !== null && conductor.tape.length > 0)) && (
                    <small>{t('screen.color.tape', { colors: view.tapeWords(conductor) })}</small>
                  )}
                  <small>
                    {role
                      ? t('screen.photo.role', { role: roleWord(role.role), share: percent(role.probability) })
                      : t('screen.photo.no-role')}
                  </small>
                </Link>
              </th>
              <td className="standing-cell">
                <StandingMark standing={view.standingOf(conductor.id)} />
                {conductor.covering === 'insulated' && !conductor.userWord && (
                  <small>{t('screen.photo.sure', { share: percent(conductor.insulation.confidence) })}</small>
                )}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
