import type { PhaseMap } from '../../../flow';
import { Share } from '../../parts/share';
import { systemWord } from '../../text/names';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface SystemListProps {
  readonly map: PhaseMap;
  readonly labelOf: (conductor: string) => string;
}

/** Systems less probable than this stay in the fold. */
const WORTH_SHOWING = 0.05;

/** Supply arrangements that may be present, and those ruled out with the reason. */
export function SystemList({ map, labelOf }: SystemListProps) {
  const likely = map.systems.filter((s, i) => i === 0 || s.probability >= WORTH_SHOWING);
  return (
    <section className="stack" aria-labelledby="systems">
      <h2 id="systems">{t('screen.map.systems')}</h2>
      {likely.length === 0 && <p>{t('screen.map.no-system')}</p>}
      <ul className="stack">
        {likely.map((s) => (
          <li key={s.system}>
            <Share of={systemWord(s.system)} probability={s.probability} />
          </li>
        ))}
      </ul>
      {map.eliminated.length > 0 && (
        <details>
          <summary>{t('screen.map.eliminated', { count: map.eliminated.length })}</summary>
          <dl className="pairs">
            {map.eliminated.map((e) => (
              <div key={e.system}>
                <dt>{systemWord(e.system)}</dt>
                <dd className="soft">{sayOf(e.why, labelOf)}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </section>
  );
}
