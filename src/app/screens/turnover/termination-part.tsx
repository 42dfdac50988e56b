import { useId, useState } from 'react';
import { Link } from 'wouter';
import { type Said, type TerminationEntry, TORQUE_UNITS, type Torque } from '../../../flow';
import type { Compared } from '../../../record';
import { Cable } from '../../parts/cable';
import { Icon } from '../../parts/icon';
import { StandingMark } from '../../parts/standing-mark';
import { TextField } from '../../parts/text-field';
import { to } from '../../routes';
import { useServices } from '../../services/context';
import { placePhoto } from '../../state/place-photo';
import { lengthMm } from '../../text/length';
import { colorWord, roleWord, systemWord } from '../../text/names';
import { dateTime, withSign } from '../../text/numbers';
import { say } from '../../text/say';
import { t } from '../../text/t';
import type { PartProps } from './part-props';
import { placeWord, resultWord } from './termination-words';
import { TurnoverPage } from './turnover-page';

interface TerminationProps extends PartProps {
  readonly compared: Compared;
}

/** One termination: what is expected, which conductor it is, and what was done there. */
export function TerminationPart({ job, work, compared }: TerminationProps) {
  const { now } = useServices();
  const { termination: item, comparison, because, standing, sight } = compared;
  const entry = work.view.turnover.entries[item.id] ?? {};
  const said = (): Said => ({ by: job.by, at: now() });
  const enter = (more: Partial<TerminationEntry>): void =>
    work.change((so) => ({ ...so, entries: { ...so.entries, [item.id]: { ...so.entries[item.id], ...more } } }));
  const place = (photo: string): void => work.change((so) => placePhoto(so, photo, item, said()));
  const shown = sight.kind === 'no photo' ? null : sight.photo;
  return (
    <TurnoverPage
      job={job}
      title={placeWord(item)}
      within="terminations"
      action={
        <Link className="key main" href={to.shootAt(job.id, item.id)}>
          <Icon name="lens" />
          {t('screen.turnover.shoot')}
        </Link>
      }
    >
      <section className="card stack">
        <p>
          <b>{t('screen.turnover.expected')}</b> {item.color ? colorWord(item.color) : '-'}
          {item.stripe && ` / ${colorWord(item.stripe)}`}
          {item.role && `, ${roleWord(item.role)}`}
          {item.system && `, ${systemWord(item.system)}`}
          {item.size && `, ${item.size}`}
          {item.torque && `, ${withSign(String(item.torque.value))} ${item.torque.unit}`}
        </p>
        <p className={`turnover-result ${comparison.replaceAll(' ', '-')}`} role="status">
          <b>{resultWord(comparison)}</b> {say(because)}
        </p>
        {standing && <StandingMark standing={standing} />}
        <p className="soft">{t('screen.turnover.match-means')}</p>
      </section>
      <section className="card stack" aria-labelledby="seen">
        <h2 id="seen">{t('screen.turnover.photo')}</h2>
        <label className="field">
          <span>{t('screen.turnover.choose-photo')}</span>
          <select value={shown?.id ?? ''} onChange={(e) => e.target.value !== '' && place(e.target.value)}>
            <option value="">{t('screen.turnover.no-photo')}</option>
            {job.photos.map((photo, k) => (
              <option key={photo.id} value={photo.id}>
                {k + 1}. {photo.findings.photo.name}
              </option>
            ))}
          </select>
        </label>
        {shown && (
          <>
            <Link className="key" href={to.photo(job.id, shown.id)}>
              {t('screen.turnover.open-photo')}
            </Link>
            <Link className="key" href={to.pair(job.id, shown.id)}>
              {t('screen.pair.go')}
            </Link>
            <fieldset className="stack">
              <legend>{t('screen.turnover.which')}</legend>
              {shown.findings.conductors.map((c, k) => {
                const mine = sight.kind === 'seen' && sight.conductor.id === c.id;
                const sighting = { photo: shown.id, conductor: c.id, ...said() };
                return (
                  <button
                    key={c.id}
                    type="button"
                    className="key plain-row"
                    aria-pressed={mine}
                    onClick={() => enter({ sightings: [...(entry.sightings ?? []), sighting] })}
                  >
                    <span className="tag">{k + 1}</span>{' '}
                    {c.covering === 'bare' ? (
                      t('screen.color.bare')
                    ) : (
                      <Cable insulation={c.insulation} stripe={c.stripe} word={shown.words[c.id] ?? c.userWord} />
                    )}
                  </button>
                );
              })}
            </fieldset>
          </>
        )}
      </section>
      <Details entry={entry} said={said} enter={enter} wanted={item.torque} />
    </TurnoverPage>
  );
}

interface DetailsProps {
  readonly entry: TerminationEntry;
  readonly said: () => Said;
  readonly enter: (more: Partial<TerminationEntry>) => void;
  readonly wanted: Torque | null;
}

/** Torque, witness mark, strip length, tape: entered, with who and when. */
function Details({ entry, said, enter, wanted }: DetailsProps) {
  const id = useId();
  const [value, setValue] = useState(entry.torque ? withSign(String(entry.torque.value)) : '');
  const [unit, setUnit] = useState<Torque['unit']>(entry.torque?.unit ?? wanted?.unit ?? 'N·m');
  const [tool, setTool] = useState(entry.torque?.tool ?? '');
  const [strip, setStrip] = useState(entry.strip ? withSign(String(entry.strip.mm)) : '');
  const [tape, setTape] = useState(entry.tape?.text ?? '');
  const amount = Number(value.replace(',', '.'));
  const mm = Math.round(100 * (lengthMm(strip) ?? 0)) / 100;
  const who = ({ by, at }: Said): string => t('screen.turnover.said', { by: by || '-', at: dateTime(at) });
  return (
    <section className="card stack" aria-labelledby={id}>
      <h2 id={id}>{t('screen.turnover.details')}</h2>
      <div className="turnover-fields">
        <TextField label={t('screen.turnover.torque')} value={value} onChange={setValue} decimal />
        <label className="field">
          <span>{t('screen.turnover.unit')}</span>
          <select value={unit} onChange={(e) => setUnit(TORQUE_UNITS.find((u) => u === e.target.value) ?? unit)}>
            {TORQUE_UNITS.map((u) => (
              <option key={u}>{u}</option>
            ))}
          </select>
        </label>
        <TextField label={t('screen.turnover.tool')} value={tool} onChange={setTool} />
      </div>
      <button
        type="button"
        className="key"
        disabled={!(amount > 0)}
        onClick={() => enter({ torque: { value: amount, unit, tool: tool.trim(), ...said() } })}
      >
        {t('screen.turnover.enter-torque')}
      </button>
      {entry.torque && (
        <p className="soft">{`${withSign(String(entry.torque.value))} ${entry.torque.unit}. ${who(entry.torque)}`}</p>
      )}
      <fieldset className="row">
        <legend>{t('screen.turnover.witness')}</legend>
        {([true, false] as const).map((seen) => (
          <button
            key={String(seen)}
            type="button"
            className="key"
            aria-pressed={entry.witness?.seen === seen}
            onClick={() => enter({ witness: { seen, ...said() } })}
          >
            {t(seen ? 'screen.turnover.witness-seen' : 'screen.turnover.witness-none')}
          </button>
        ))}
      </fieldset>
      {entry.witness && <p className="soft">{who(entry.witness)}</p>}
      <TextField
        label={t('screen.turnover.strip')}
        value={strip}
        onChange={setStrip}
        onBlur={() => mm > 0 && mm !== entry.strip?.mm && enter({ strip: { mm, ...said() } })}
      />
      {entry.strip && (
        <p className="soft">{`${t('screen.turnover.strip-mm', { mm: withSign(String(entry.strip.mm)) })} ${who(entry.strip)}`}</p>
      )}
      <TextField
        label={t('screen.turnover.tape')}
        value={tape}
        onChange={setTape}
        onBlur={() => tape.trim() !== (entry.tape?.text ?? '') && enter({ tape: { text: tape.trim(), ...said() } })}
      />
    </section>
  );
}
