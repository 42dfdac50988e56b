import { Link } from 'wouter';
import type { Assignment } from '../../../flow';
import { Cable } from '../../parts/cable';
import { ConductorHead } from '../../parts/conductor-head';
import { ConductorRow } from '../../parts/conductor-row';
import { to } from '../../routes';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { roleWord, systemWord } from '../../text/names';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';

/** The phase map itself: conductor to role, with what else it may be. */
export function RoleTable({ bench, view }: { readonly bench: Workbench; readonly view: PhotoView }) {
  const byConductor = new Map(view.map.assignments.map((a) => [a.conductor, a]));
  return (
    <section aria-labelledby="role-table">
      <h2 id="role-table">{t('screen.map.roles')}</h2>
      <table className="conductors">
        <ConductorHead says="screen.col.role" />
        <tbody>
          {view.conductors.map((c) => (
            <ConductorRow
              key={c.id}
              label={view.labelOf(c.id)}
              standing={view.standingOf(c.id)}
              selected={c.id === bench.selected}
            >
              <Link className="row-link" href={to.conductor(bench.job.id, bench.photo.id, c.id)}>
                <RoleLines assignment={byConductor.get(c.id)} />
                {c.covering === 'bare' ? (
                  <small>{t('screen.color.bare')}</small>
                ) : (
                  <Cable insulation={c.insulation} stripe={c.stripe} word={c.userWord} />
                )}
              </Link>
            </ConductorRow>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Alternatives below this are left to the conductor's own sheet. */
const WORTH_SHOWING = 0.05;

function RoleLines({ assignment }: { readonly assignment: Assignment | undefined }) {
  const [first, ...others] = assignment?.roles ?? [];
  if (!first) return <b>{t('screen.photo.no-role')}</b>;
  const also = others.filter((r) => r.probability >= WORTH_SHOWING).slice(0, 2);
  return (
    <>
      <b>{t('screen.photo.role', { role: roleWord(first.role), share: percent(first.probability) })}</b>
      <small>{systemWord(first.system)}</small>
      {also.length > 0 && (
        <small>
          {t('screen.map.also', {
            roles: also
              .map((r) =>
                t('screen.map.also-one', {
                  role: roleWord(r.role),
                  system: systemWord(r.system),
                  share: percent(r.probability),
                }),
              )
              .join('; '),
          })}
        </small>
      )}
    </>
  );
}
