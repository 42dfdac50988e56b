import { Link } from 'wouter';
import { Icon } from '../../parts/icon';
import { UndoKeys } from '../../parts/undo-keys';
import { t } from '../../text/t';

/** The map is a suspicion; the way on is the meter. */
export function MapDeck({ next }: { readonly next: string }) {
  return (
    <div className="deck-row">
      <UndoKeys />
      <Link className="key main" href={next}>
        {t('screen.map.measure')}
        <Icon name="open" />
      </Link>
    </div>
  );
}
