import { Link } from 'wouter';
import type { NamedConductor } from '../../../flow';
import { Share } from '../../parts/share';
import { to } from '../../routes';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { roleWord, systemWord } from '../../text/names';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface RoleProposalProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly conductor: NamedConductor;
}

/** What the conductor may be, why, and what still has to be measured. */
export function RoleProposal({ bench, view, conductor }: RoleProposalProps) {
  const assignment = view.map.assignments.find((a) => a.conductor === conductor.id);
  const missing = view.verdictOf(conductor.id)?.missing.length ?? 0;
  if (!assignment || assignment.roles.length === 0) return null;
  return (
    <section className="stack" aria-labelledby="roles">
      <h2 id="roles">{t('screen.conductor.roles')}</h2>
      <ul className="stack">
        {assignment.roles.slice(0, 4).map((r) => (
          <li key={`${r.system}-${r.role}`}>
            <Share
              of={t('screen.role-in-system', { role: roleWord(r.role), system: systemWord(r.system) })}
              probability={r.probability}
            />
          </li>
        ))}
      </ul>
      {assignment.because.length > 0 && (
        <ul className="plain-list soft">
          {assignment.because.map((fact) => (
            <li key={`${fact.code}-${JSON.stringify(fact.values)}`}>{sayOf(fact, view.labelOf)}</li>
          ))}
        </ul>
      )}
      {missing > 0 && (
        <p>
          {t('screen.conductor.missing', { count: missing })}{' '}
          <Link href={to.meter(bench.job.id, bench.photo.id)}>{t('screen.conductor.measure')}</Link>
        </p>
      )}
    </section>
  );
}
