import type { Verdict } from '../../../flow';
import { Share } from '../../parts/share';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface ExplanationsProps {
  readonly verdict: Verdict;
  readonly labelOf: (conductor: string) => string;
  /** Takes the check in hand that tells this explanation from the others. */
  readonly onPick: (check: string) => void;
}

/** Why readings contradict the map, most probable first. */
export function Explanations({ verdict, labelOf, onPick }: ExplanationsProps) {
  if (verdict.explanations.length === 0) return null;
  return (
    <section className="note danger stack" aria-labelledby="disputes">
      <h2 id="disputes">{t('screen.meter.disputes')}</h2>
      <ul className="stack">
        {verdict.explanations.map((e) => (
          <li key={`${e.message.code}-${JSON.stringify(e.message.values)}`}>
            <Share of={sayOf(e.message, labelOf)} probability={e.probability} />
            {e.settledBy && (
              <button type="button" className="key" onClick={() => e.settledBy && onPick(e.settledBy)}>
                {t('screen.meter.settled-by')}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
