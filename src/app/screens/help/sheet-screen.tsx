import { Deck } from '../../parts/deck';
import { Icon } from '../../parts/icon';
import { ScreenHeading } from '../../parts/screen-heading';
import { TextMain } from '../../parts/text-main';
import { TopBar } from '../../parts/top-bar';
import { to } from '../../routes';
import { t } from '../../text/t';
import { Ruler } from './ruler';

/** sRGB levels of the printed grays: one near 18 % reflectance (sRGB 118, IEC 61966-2-1), one lighter, one darker. */
const GRAYS = [186, 118, 64] as const;

/** Tags to cut out and clip beside a conductor, so that photo, map and meter speak of the same number. */
const TAGS = Array.from({ length: 12 }, (_, i) => i + 1);

/** A sheet to print and hold in the shot: paper white, three grays, a scale in both units, numbered tags. */
export function SheetScreen() {
  return (
    <div className="page sheet-page">
      <TopBar back={to.help} />
      <TextMain>
        <ScreenHeading>{t('screen.sheet.title')}</ScreenHeading>
        <ul className="plain-list sheet-how">
          <li>{t('screen.sheet.how')}</li>
          <li>{t('screen.sheet.size')}</li>
        </ul>
        <p className="note caution">{t('screen.sheet.caution')}</p>
        <figure className="sheet" aria-label={t('screen.sheet.label')}>
          <div className="sheet-patches">
            <p className="sheet-patch">{t('screen.sheet.white')}</p>
            {GRAYS.map((level) => (
              <p
                key={level}
                className="sheet-patch"
                style={{ background: `rgb(${level} ${level} ${level})`, color: level > 120 ? '#000' : '#fff' }}
              >
                {t('screen.sheet.gray')}
              </p>
            ))}
          </div>
          <Ruler />
          <ul className="sheet-tags">
            {TAGS.map((n) => (
              <li key={n}>{n}</li>
            ))}
          </ul>
          <figcaption>{t('screen.sheet.foot')}</figcaption>
        </figure>
      </TextMain>
      <Deck>
        <div className="deck-row">
          <button type="button" className="key main" onClick={() => window.print()}>
            <Icon name="paper" />
            {t('screen.sheet.print')}
          </button>
        </div>
      </Deck>
    </div>
  );
}
