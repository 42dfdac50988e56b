import type { Check, Verdict } from '../../../flow';
import { Share } from '../../parts/share';
import { checkWord } from '../../text/check-word';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface ExplanationsProps {
  readonly verdict: Verdict;
  /** Checks still to be made; the settling one is among them. */
  readonly next: readonly Check[];
  readonly labelOf: (conductor: string) => string;
  /** Takes the check in hand that tells this explanation from the others. */
  readonly onPick: (check: string) => void;
}

/** Why readings contradict the map, most probable first. */
export function Explanations({ verdict, next, labelOf, onPick }: ExplanationsProps) {
  if (verdict.explanations.length === 0) return null;
  return (
    <section className="note danger stack" aria-labelledby="disputes">
      <h2 id="disputes">{t('screen.meter.disputes')}</h2>
      <ul className="stack">
        {verdict.explanations.map((e, i) => {
          // Once below all the explanations that it tells apart.
          const last = verdict.explanations[i + 1]?.settledBy !== e.settledBy;
          const check = last ? next.find((c) => c.id === e.settledBy) : undefined;
          return (
            <li key={`${e.message.code}-${JSON.stringify(e.message.values)}`}>
              <Share of={sayOf(e.message, labelOf)} probability={e.probability} />
              {check && (
                <button type="button" className="key check-key" onClick={() => onPick(check.id)}>
                  <b>{t('screen.meter.settled-by')}</b>
                  <small>{checkWord(check, labelOf)}</small>
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
