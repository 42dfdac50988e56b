import { Link } from 'wouter';
import { Deck } from '../parts/deck';
import { TextMain } from '../parts/text-main';
import { to } from '../routes';
import { t } from '../text/t';

/** A link that leads nowhere, or to a job this device does not have. */
export function LostScreen() {
  return (
    <div className="page">
      <header className="bar">
        <h1 className="bar-title">{t('screen.lost.title')}</h1>
      </header>
      <TextMain>
        <p>{t('screen.lost.text')}</p>
      </TextMain>
      <Deck>
        <div className="deck-row">
          <Link className="key main" href={to.start}>
            {t('screen.lost.start')}
          </Link>
        </div>
      </Deck>
    </div>
  );
}
