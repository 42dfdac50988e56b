import type { Verdict } from '../../../flow';
import { Share } from '../../parts/share';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';

interface ExplanationsProps {
  readonly verdict: Verdict;
  readonly labelOf: (conductor: string) => string;
}

/** Why readings contradict the map, most probable first. */
export function Explanations({ verdict, labelOf }: ExplanationsProps) {
  if (verdict.explanations.length === 0) return null;
  return (
    <section className="note danger stack" aria-labelledby="disputes">
      <h2 id="disputes">{t('screen.meter.disputes')}</h2>
      <ul className="stack">
        {verdict.explanations.map((e) => (
          <li key={`${e.message.code}-${JSON.stringify(e.message.values)}`}>
            <Share of={sayOf(e.message, labelOf)} probability={e.probability} />
          </li>
        ))}
      </ul>
    </section>
  );
}
