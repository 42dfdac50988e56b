import type { SameConductor } from '../../../flow';
import { CablePiece } from '../../parts/cable';
import { Share } from '../../parts/share';
import { setWord } from '../../text/names';
import { dateTime } from '../../text/numbers';
import { t } from '../../text/t';

/** Names shown; the set says the rest. */
const SHOWN = 4;

/** What the photos of one conductor say of its color together, and who said that they show one. */
export function Together({ said }: { readonly said: SameConductor }) {
  const { together, sightings, by, at } = said;
  return (
    <div className="stack">
      {together.contradicting && <p className="note caution">{t('screen.same.contradicting')}</p>}
      <p>{t('screen.same.set', { count: sightings.length, set: setWord(together) })}</p>
      <ul className="stack">
        {together.candidates.slice(0, SHOWN).map((c) => (
          <li key={c.name}>
            <Share of={<CablePiece name={c.name} />} probability={c.probability} />
          </li>
        ))}
      </ul>
      <p className="soft">{t('screen.same.said', { by, when: dateTime(at) })}</p>
    </div>
  );
}
