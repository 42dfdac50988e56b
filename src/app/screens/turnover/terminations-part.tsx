import { useState } from 'react';
import { Link } from 'wouter';
import type { Comparison } from '../../../flow';
import type { Compared } from '../../../record';
import { Icon } from '../../parts/icon';
import { LongList } from '../../parts/long-list';
import { StandingMark } from '../../parts/standing-mark';
import { to } from '../../routes';
import { say } from '../../text/say';
import { t } from '../../text/t';
import type { PartProps } from './part-props';
import { placeWord, resultWord } from './termination-words';
import { TurnoverPage } from './turnover-page';

const RESULTS: readonly Comparison[] = ['differs', 'cannot tell', 'missing', 'match'];
/** Rows drawn at once: a list of a thousand holds up a phone. */
const STEP = 60;

/** Every termination: expected against seen. */
export function TerminationsPart({ job, work }: PartProps) {
  const [only, setOnly] = useState<Comparison | null>(null);
  const list = work.view.compared.filter((c) => only === null || c.comparison === only);
  return (
    <TurnoverPage
      job={job}
      title={t('screen.turnover.terminations')}
      current="terminations"
      action={
        <Link className="key main" href={to.shoot('record', job.id)}>
          <Icon name="lens" />
          {t('screen.turnover.scan')}
        </Link>
      }
    >
      <fieldset className="row turnover-parts">
        <legend className="unseen">{t('screen.turnover.show-only')}</legend>
        {RESULTS.map((result) => (
          <button
            key={result}
            type="button"
            className="key"
            aria-pressed={only === result}
            onClick={() => setOnly(only === result ? null : result)}
          >
            {resultWord(result)} {work.view.counts[result]}
          </button>
        ))}
      </fieldset>
      <ToPair job={job} work={work} />
      {list.length === 0 && <p className="soft">{t('screen.turnover.none')}</p>}
      <LongList key={only} items={list} step={STEP} className="stack turnover-list">
        {(c) => <Row key={c.termination.id} job={job.id} compared={c} />}
      </LongList>
    </TurnoverPage>
  );
}

/** The next photo of several conductors of which nobody has said where they land. */
function ToPair({ job, work }: PartProps) {
  const open = work.view.compared.flatMap(({ sight }) =>
    sight.kind === 'not pointed out' && sight.photo.findings.conductors.length > 0 ? [sight.photo] : [],
  );
  const [first] = open;
  if (!first) return null;
  return (
    <section className="card stack">
      <p>{t('screen.pair.waiting', { count: new Set(open).size })}</p>
      <Link className="key wide" href={to.pair(job.id, first.id)}>
        {t('screen.pair.start')}
      </Link>
    </section>
  );
}

function Row({ job, compared }: { readonly job: string; readonly compared: Compared }) {
  const { termination: item, comparison, because, standing, sight } = compared;
  return (
    <li className="turnover-row">
      <Link className="key plain-row" href={to.termination(job, item.id)}>
        <b>{placeWord(item)}</b>
        <small>{item.load}</small>
        <span className={`turnover-result ${comparison.replaceAll(' ', '-')}`}>
          <b>{resultWord(comparison)}</b> {say(because)}
        </span>
        {standing && <StandingMark standing={standing} />}
      </Link>
      {sight.kind === 'no photo' && (
        <Link
          className="key"
          href={to.shootAt(job, item.id)}
          aria-label={t('screen.turnover.shoot-at', { place: placeWord(item) })}
        >
          <Icon name="lens" />
        </Link>
      )}
    </li>
  );
}
