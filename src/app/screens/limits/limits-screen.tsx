import { Link } from 'wouter';
import { Deck } from '../../parts/deck';
import { Icon } from '../../parts/icon';
import { LanguageKey } from '../../parts/language-key';
import { ScreenHeading } from '../../parts/screen-heading';
import { to } from '../../routes';
import { t } from '../../text/t';

const LIMITS = [
  'screen.limits.color',
  'screen.limits.live',
  'screen.limits.phase',
  'screen.limits.old',
  'screen.limits.light',
  'screen.limits.photo',
  'screen.limits.private',
] as const;

/** What this tool cannot know, said plainly. */
export function LimitsScreen() {
  return (
    <div className="page">
      <header className="bar">
        <Link className="key" href={to.start} aria-label={t('screen.back')}>
          <Icon name="back" />
        </Link>
        <p className="bar-title">{t('screen.app')}</p>
        <LanguageKey />
      </header>
      <main className="stack column">
        <ScreenHeading>{t('screen.limits.title')}</ScreenHeading>
        <ul className="plain-list stack">
          {LIMITS.map((code) => (
            <li key={code}>{t(code)}</li>
          ))}
        </ul>
      </main>
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
