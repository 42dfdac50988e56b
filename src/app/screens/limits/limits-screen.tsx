import { Link } from 'wouter';
import { Deck } from '../../parts/deck';
import { ScreenHeading } from '../../parts/screen-heading';
import { TextMain } from '../../parts/text-main';
import { TopBar } from '../../parts/top-bar';
import { to } from '../../routes';
import { t } from '../../text/t';
import { LimitList } from '../help/limit-list';

/** What this tool cannot know, as a page of its own that can be linked to. */
export function LimitsScreen() {
  return (
    <div className="page">
      <TopBar back={to.help} />
      <TextMain>
        <ScreenHeading>{t('screen.limits.title')}</ScreenHeading>
        <LimitList />
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
