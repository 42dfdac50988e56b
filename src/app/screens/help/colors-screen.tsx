import { useDeferredValue, useId, useMemo, useState } from 'react';
import type { Jurisdiction } from '../../../identify';
import { ScreenHeading } from '../../parts/screen-heading';
import { Swatch } from '../../parts/swatch';
import { TableHead } from '../../parts/table-head';
import { TextMain } from '../../parts/text-main';
import { TopBar } from '../../parts/top-bar';
import { to } from '../../routes';
import { roleWord, systemWord } from '../../text/names';
import { t } from '../../text/t';
import { findConventions, forceWord, lookWords } from './find-conventions';

const JURISDICTIONS = ['US', 'CA', 'IEC', 'UK', 'AU', 'CN', 'IN', 'JP'] as const satisfies readonly Jurisdiction[];

const STATUS = {
  read: 'screen.rule.read',
  'from memory': 'screen.rule.memory',
  'common practice, no source': 'screen.rule.practice',
} as const;

const FIRST_LINES = 8;

/** The color conventions this tool goes by, with their force and source; searched by any word. */
export function ColorsScreen() {
  const [jurisdiction, setJurisdiction] = useState<Jurisdiction>('US');
  const [asked, setAsked] = useState('');
  const id = useId();
  const lines = useMemo(() => findConventions(jurisdiction, asked), [jurisdiction, asked]);
  // The first screenful at once, the rest when the page is idle: a key typed never waits for a long table.
  const shown = useDeferredValue(lines, lines.slice(0, FIRST_LINES));
  return (
    <div className="page">
      <TopBar back={to.help} />
      <TextMain>
        <ScreenHeading>{t('screen.colors.title')}</ScreenHeading>
        <p className="note caution">{t('screen.colors.caution')}</p>
        <p role="status">{t('screen.colors.count', { count: lines.length })}</p>
        <table className="conventions">
          <caption className="unseen">{t('screen.colors.title')}</caption>
          <TableHead columns={['screen.colors.role', 'screen.colors.looks']} />
          <tbody>
            {shown.map((line) => (
              <tr key={line.id}>
                <th scope="row">
                  <b>{roleWord(line.role)}</b>
                  <small>{systemWord(line.system)}</small>
                </th>
                <td>
                  <ul className="looks">
                    {lookWords(line).map((words, i) => {
                      const { color, stripe } = line.looks[i] ?? {};
                      return (
                        <li key={words} className="cable-piece">
                          {color && color !== 'bare' && (
                            <Swatch name={color} stripe={stripe === 'distinctive' ? undefined : stripe} />
                          )}
                          {words}
                        </li>
                      );
                    })}
                  </ul>
                  <small className="soft">
                    {t('screen.colors.source', {
                      force: forceWord(line),
                      status: t(STATUS[line.status]),
                      source: line.source,
                    })}
                  </small>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TextMain>
      <search className="deck">
        <div className="deck-row">
          <label className="field grow" htmlFor={`${id}-asked`}>
            <span>{t('screen.colors.ask')}</span>
            <input
              id={`${id}-asked`}
              type="text"
              inputMode="search"
              autoComplete="off"
              value={asked}
              onChange={(event) => setAsked(event.target.value)}
            />
          </label>
          <label className="field" htmlFor={`${id}-place`}>
            <span>{t('screen.site.jurisdiction')}</span>
            <select
              id={`${id}-place`}
              value={jurisdiction}
              onChange={(event) => setJurisdiction(JURISDICTIONS.find((each) => each === event.target.value) ?? 'US')}
            >
              {JURISDICTIONS.map((each) => (
                <option key={each} value={each}>
                  {t(`screen.jurisdiction.${each}`)}
                </option>
              ))}
            </select>
          </label>
        </div>
      </search>
    </div>
  );
}
