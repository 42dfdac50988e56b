import { Cable } from '../../parts/cable';
import { ConductorHead } from '../../parts/conductor-head';
import { ConductorRow } from '../../parts/conductor-row';
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
            <ConductorRow key={c.id} label={view.labelOf(c.id)} standing={view.standingOf(c.id)}>
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
            </ConductorRow>
          );
        })}
      </tbody>
    </table>
  );
}
