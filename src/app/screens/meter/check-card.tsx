import type { TestPoint } from '../../../flow';
import { Cable } from '../../parts/cable';
import { TableHead } from '../../parts/table-head';
import type { PhotoView } from '../../state/use-photo-view';
import { expectedWord } from '../../text/expected-word';
import { roleWord, systemWord } from '../../text/names';
import { pointWord } from '../../text/point-word';
import { readingWord } from '../../text/reading-word';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';
import type { MeterState } from './use-meter';

/** Hypotheses shown for a check: more would not be read with a probe in each hand. */
const MOST_EXPECTED = 3;

/** The check in hand: leads, function, condition, what to expect and why. */
export function CheckCard({ meter, view }: { readonly meter: MeterState; readonly view: PhotoView }) {
  const { target, check } = meter;
  if (!target) return null;
  return (
    <section className="card stack check-card" aria-labelledby="check">
      <h2 id="check">{t(target.supersedes ? 'screen.meter.again' : 'screen.meter.next')}</h2>
      <ol className="leads">
        <Lead point={target.from} view={view} name={t('screen.meter.lead-one')} />
        <Lead point={target.to} view={view} name={t('screen.meter.lead-two')} />
        {target.third && <Lead point={target.third} view={view} name={t('screen.meter.lead-three')} />}
      </ol>
      <p className="row">
        <b>{t(`screen.function.${target.function}`)}</b>
        {target.condition && <span className="condition">{t(`screen.condition.${target.condition}`)}</span>}
      </p>
      {target.was && <p className="note">{t('screen.meter.was', { value: readingWord(target.was) })}</p>}
      {check && (
        <>
          <p>{sayOf(check.why, view.labelOf)}</p>
          <table>
            <caption className="unseen">{t('screen.meter.expected-table')}</caption>
            <TableHead columns={['screen.meter.if', 'screen.meter.expect']} />
            <tbody>
              {check.expected.slice(0, MOST_EXPECTED).map((e) => (
                <tr key={`${e.system}-${e.between.join('-')}-${e.nominal}`}>
                  <td>
                    {t('screen.meter.hypothesis', {
                      one: roleWord(e.between[0]),
                      two: roleWord(e.between[1]),
                      system: systemWord(e.system),
                    })}
                  </td>
                  <td>
                    <b>{expectedWord(e, check.function === 'continuity')}</b>
                    <small className="soft band">{sayOf(e.band, view.labelOf)}</small>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          {check.rulesOut && check.rulesOut.length > 0 && (
            <div>
              <strong>{t('screen.meter.rules-out')}</strong>
              <ul className="plain-list">
                {check.rulesOut.map((way) => (
                  <li key={JSON.stringify(way)}>{sayOf(way, view.labelOf)}</li>
                ))}
              </ul>
            </div>
          )}
        </>
      )}
    </section>
  );
}

interface LeadProps {
  readonly point: TestPoint;
  readonly view: PhotoView;
  readonly name: string;
}

function Lead({ point, view, name }: LeadProps) {
  const conductor = point.kind === 'conductor' ? view.conductors.find((c) => c.id === point.conductor) : undefined;
  return (
    <li className="lead">
      <span className="soft">{name}</span>
      <b>{pointWord(point, view.labelOf)}</b>
      {conductor?.covering === 'insulated' && (
        <Cable insulation={conductor.insulation} stripe={conductor.stripe} word={conductor.userWord} />
      )}
    </li>
  );
}
