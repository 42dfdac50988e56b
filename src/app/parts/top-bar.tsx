import { Link } from 'wouter';
import { to } from '../routes';
import { t } from '../text/t';
import { Icon } from './icon';
import { LanguageKey } from './language-key';
import { ThemeKey } from './theme-key';

/** Top of the screens that belong to no job: the way back, language and light. */
export function TopBar({ back }: { readonly back: string }) {
  return (
    <header className="bar">
      <Link className="key" href={back} aria-label={back === to.start ? t('screen.lost.start') : t('screen.back')}>
        <Icon name="back" />
      </Link>
      <p className="bar-title">{t('screen.app')}</p>
      <LanguageKey />
      <ThemeKey />
    </header>
  );
}
