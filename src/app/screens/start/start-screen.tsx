import { Link } from 'wouter';
import { Icon, type IconName } from '../../parts/icon';
import { LanguageKey } from '../../parts/language-key';
import { ThemeKey } from '../../parts/theme-key';
import { type Journey, to } from '../../routes';
import { t } from '../../text/t';
import { FirstRun } from './first-run';
import { ImportKey } from './import-key';
import { LeftPhotos } from './left-photos';
import { OfflineNote } from './offline-note';
import { RecentJobs } from './recent-jobs';
import { SampleScenes } from './sample-scenes';

const WAYS = [
  { journey: 'map', icon: 'panel', title: 'screen.start.map.title', text: 'screen.start.map.text' },
  { journey: 'hue', icon: 'strand', title: 'screen.start.hue.title', text: 'screen.start.hue.text' },
  { journey: 'record', icon: 'sheet', title: 'screen.start.record.title', text: 'screen.start.record.text' },
] as const satisfies readonly { readonly journey: Journey; readonly icon: IconName; title: string; text: string }[];

/** First screen: go on with a job, try an invented scene, or start one of the three ways from the deck below. */
export function StartScreen() {
  return (
    <div className="page start">
      <header className="bar">
        <h1 className="bar-title wordmark">{t('screen.app')}</h1>
        <Link className="key" href={to.help}>
          {t('screen.help.link')}
        </Link>
        <LanguageKey />
        <ThemeKey />
      </header>
      <main className="stack">
        <p className="motto">{t('screen.motto')}</p>
        <p className="soft">{t('screen.start.what')}</p>
        <LeftPhotos />
        <FirstRun />
        <RecentJobs />
        <SampleScenes />
        <ImportKey />
        <OfflineNote />
      </main>
      <nav className="deck ways" aria-label={t('screen.start.ways')}>
        {WAYS.map(({ journey, icon, title, text }, i) => (
          <Link key={journey} className={i === 0 ? 'key main way' : 'key way'} href={to.shoot(journey)}>
            <Icon name={icon} />
            <span>
              <b>{t(title)}</b>
              <small>{t(text)}</small>
            </span>
          </Link>
        ))}
      </nav>
    </div>
  );
}
