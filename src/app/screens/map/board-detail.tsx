import { Link } from 'wouter';
import type { Finding, NamedConductor } from '../../../flow';
import { to } from '../../routes';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { roleWord, systemWord } from '../../text/names';
import { percent } from '../../text/numbers';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';
import type { Proposal } from './proposals';

interface BoardDetailProps {
  readonly conductor: NamedConductor;
  readonly ways: readonly Proposal[];
  readonly alarms: readonly Finding[];
  readonly bench: Workbench;
  readonly view: PhotoView;
}

/** The touched conductor in words: what it may be, what moved that most, and what is wrong with it. */
export function BoardDetail({ conductor, ways, alarms, bench, view }: BoardDetailProps) {
  const label = view.labelOf(conductor.id);
  const because = view.map.assignments.find((a) => a.conductor === conductor.id)?.because ?? [];
  return (
    <div className="board-detail card stack" role="status">
      <h3>{t('screen.board.detail', { label })}</h3>
      <ul className="plain-list">
        {ways.map((w) => (
          <li key={`${w.system} ${w.role}`}>
            {t('screen.board.way', {
              role: roleWord(w.role),
              system: systemWord(w.system),
              share: percent(w.probability),
            })}
          </li>
        ))}
      </ul>
      {alarms.map((f) => (
        <p key={f.code} className="note caution">
          {sayOf(f.message, view.labelOf)}
        </p>
      ))}
      {because.length > 0 && (
        <div>
          <h4>{t('screen.board.why')}</h4>
          <ul className="plain-list">
            {because.map((fact) => (
              <li key={`${fact.code}-${JSON.stringify(fact.values)}`}>{sayOf(fact, view.labelOf)}</li>
            ))}
          </ul>
        </div>
      )}
      <div className="row">
        <Link className="key" href={to.conductor(bench.job.id, bench.photo.id, conductor.id)}>
          {t('screen.board.open', { label })}
        </Link>
        <button type="button" className="key" onClick={() => bench.select(null)}>
          {t('screen.board.close')}
        </button>
      </div>
    </div>
  );
}
