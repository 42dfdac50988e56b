import { useState } from 'react';
import { Link } from 'wouter';
import type { Deviation, Handling, Job, Said } from '../../../flow';
import { closingFault, deviationText, shownBy } from '../../../record';
import { LongList } from '../../parts/long-list';
import { TextField } from '../../parts/text-field';
import { to } from '../../routes';
import { useServices } from '../../services/context';
import { dateTime } from '../../text/numbers';
import { say } from '../../text/say';
import { t } from '../../text/t';
import type { PartProps } from './part-props';
import { placeWord, severityWord } from './termination-words';
import { TurnoverPage } from './turnover-page';

const STEP = 40;
const NONE: Handling = { comments: [] };

/** What is not as it should be, worst first. */
export function DeviationsPart({ job, work }: PartProps) {
  const { now } = useServices();
  const [closedToo, setClosedToo] = useState(false);
  const { deviations, turnover, compared, open } = work.view;
  const list = deviations.filter((d) => closedToo || !turnover.handled[d.id]?.closed);
  const terminations = new Map(compared.map((c) => [c.termination.id, c.termination]));
  const handle = (id: string, more: (h: Handling) => Handling): void =>
    work.change((so) => ({ ...so, handled: { ...so.handled, [id]: more(so.handled[id] ?? NONE) } }));
  return (
    <TurnoverPage job={job} title={t('screen.turnover.deviations')} current="deviations">
      <div className="row spread">
        <p role="status">{t('screen.turnover.open-of', { open, all: deviations.length })}</p>
        <button type="button" className="key" aria-pressed={closedToo} onClick={() => setClosedToo(!closedToo)}>
          {t('screen.turnover.closed-too')}
        </button>
      </div>
      {list.length === 0 && <p className="soft">{t('screen.turnover.no-deviations')}</p>}
      <LongList items={list} step={STEP} className="stack turnover-list">
        {(d) => {
          const item = d.termination === null ? undefined : terminations.get(d.termination);
          return (
            <Item
              key={d.id}
              job={job}
              deviation={d}
              place={item ? placeWord(item) : d.panel}
              shown={() => shownBy(d, work.view)}
              handling={turnover.handled[d.id] ?? NONE}
              said={() => ({ by: job.by, at: now() })}
              onHandle={(more) => handle(d.id, more)}
            />
          );
        }}
      </LongList>
    </TurnoverPage>
  );
}

interface ItemProps {
  readonly job: Job;
  readonly deviation: Deviation;
  readonly place: string;
  /** Photos that show it as it was found; looked for only when a photo is to close it. */
  readonly shown: () => ReadonlySet<string>;
  readonly handling: Handling;
  readonly said: () => Said;
  readonly onHandle: (more: (h: Handling) => Handling) => void;
}

function Item({ job, deviation, place, shown, handling, said, onHandle }: ItemProps) {
  const [who, setWho] = useState(handling.assigned?.to ?? '');
  const [comment, setComment] = useState('');
  const [photo, setPhoto] = useState('');
  const closing = job.photos.find((p) => p.id === photo);
  const refused = closing ? closingFault(closing, shown(), job.photos) : null;
  return (
    <li className="card stack">
      <p>
        <b className="turnover-severity">{severityWord(deviation.severity)}</b> {place}
      </p>
      <p>{deviationText(deviation, say)}</p>
      {handling.closed && (
        <p className="note">
          {t('screen.turnover.closed', { by: handling.closed.by || '-', at: dateTime(handling.closed.at) })}
        </p>
      )}
      {handling.comments.map((c) => (
        <p key={`${c.at}-${c.text}`} className="soft">
          {c.text} ({c.by || '-'}, {dateTime(c.at)})
        </p>
      ))}
      <details>
        <summary>{t('screen.turnover.handle')}</summary>
        <div className="stack">
          {deviation.code === 'schedule' && (
            <Link className="key" href={to.turnover(job.id, 'schedule')}>
              {t('screen.turnover.schedule')}
            </Link>
          )}
          {deviation.termination !== null && (
            <Link className="key" href={to.termination(job.id, deviation.termination)}>
              {t('screen.turnover.go-there')}
            </Link>
          )}
          <TextField
            label={t('screen.turnover.assign')}
            value={who}
            onChange={setWho}
            onBlur={() =>
              who.trim() !== (handling.assigned?.to ?? '') &&
              onHandle((h) => ({ ...h, assigned: { to: who.trim(), ...said() } }))
            }
          />
          <label className="field">
            <span>{t('screen.turnover.comment')}</span>
            <textarea rows={2} value={comment} onChange={(e) => setComment(e.target.value)} />
          </label>
          <button
            type="button"
            className="key"
            disabled={comment.trim() === ''}
            onClick={() => {
              onHandle((h) => ({ ...h, comments: [...h.comments, { text: comment.trim(), ...said() }] }));
              setComment('');
            }}
          >
            {t('screen.turnover.add-comment')}
          </button>
          <label className="field">
            <span>{t('screen.turnover.close-with')}</span>
            <select value={photo} onChange={(e) => setPhoto(e.target.value)}>
              <option value="">{t('screen.turnover.no-photo')}</option>
              {job.photos.map((p, k) => (
                <option key={p.id} value={p.id}>
                  {k + 1}. {p.findings.photo.name}
                </option>
              ))}
            </select>
          </label>
          <p role="status" className={refused ? 'note' : undefined}>
            {refused && say(refused)}
          </p>
          <button
            type="button"
            className="key"
            disabled={!closing || refused !== null}
            onClick={() => onHandle((h) => ({ ...h, closed: { photo, ...said() } }))}
          >
            {t('screen.turnover.close')}
          </button>
        </div>
      </details>
    </li>
  );
}
