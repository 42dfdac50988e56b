import { Link } from 'wouter';
import { Deck } from '../../parts/deck';
import { Icon } from '../../parts/icon';
import { ScreenHeading } from '../../parts/screen-heading';
import { StandingMark } from '../../parts/standing-mark';
import { TextMain } from '../../parts/text-main';
import { TopBar } from '../../parts/top-bar';
import { to } from '../../routes';
import { t } from '../../text/t';
import { LimitList } from './limit-list';

const ORDER = [
  'screen.help.look',
  'screen.help.name',
  'screen.help.suspect',
  'screen.help.measure',
  'screen.help.prove',
  'screen.help.keep',
] as const;

const STANDINGS = [
  ['by color', 'screen.help.by-color'],
  ['metered', 'screen.help.metered'],
  ['disputed', 'screen.help.disputed'],
] as const;

/** The order of the job, what the marks mean, what cannot be known, and the two things to look up or print. */
export function HelpScreen() {
  return (
    <div className="page">
      <TopBar back={to.start} />
      <TextMain>
        <ScreenHeading>{t('screen.help.title')}</ScreenHeading>
        <ol className="ordered-list stack">
          {ORDER.map((code) => (
            <li key={code}>{t(code)}</li>
          ))}
        </ol>
        <h2>{t('screen.help.marks')}</h2>
        <dl className="pairs">
          {STANDINGS.map(([standing, code]) => (
            <div key={standing}>
              <dt>
                <StandingMark standing={standing} />
              </dt>
              <dd>{t(code)}</dd>
            </div>
          ))}
        </dl>
        <p>{t('screen.help.letters')}</p>
        <h2 id="limits">{t('screen.limits.title')}</h2>
        <LimitList />
      </TextMain>
      <Deck>
        <div className="deck-row">
          <Link className="key" href={to.colors}>
            <Icon name="strand" />
            {t('screen.colors.link')}
          </Link>
          <Link className="key" href={to.sheet}>
            <Icon name="paper" />
            {t('screen.sheet.link')}
          </Link>
        </div>
      </Deck>
    </div>
  );
}
