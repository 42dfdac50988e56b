import { type CSSProperties, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { EMPTY_TURNOVER, type JobPhoto, type Termination } from '../../../flow';
import { type Compared, type Pairs, pairInOrder, sightingOf, terminationsAt } from '../../../record';
import { Cable } from '../../parts/cable';
import { Stage } from '../../parts/picture/stage';
import { to } from '../../routes';
import { useServices } from '../../services/context';
import { begin, type History, redo, step, undo } from '../../state/history';
import { usePhotoBytes } from '../../state/use-photo-bytes';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';
import { conductorsWithWords } from '../../thinking/request';
import type { PartProps } from './part-props';
import { placeWord } from './termination-words';
import { TurnoverPage } from './turnover-page';

interface PairProps extends PartProps {
  readonly photo: JobPhoto;
}

/** What was said so far, before it is kept. */
interface Said {
  readonly pointed: Pairs;
  readonly ordered: Pairs;
}

/**
 * Which conductor of a photo lands at which termination: by touching one after the other, or by their order where the
 * user says that it is right. All of it is kept in one step.
 */
export function PairPart({ job, work, photo }: PairProps) {
  const { now } = useServices();
  const [, navigate] = useLocation();
  const bytes = usePhotoBytes(job.id, photo.id);
  const { findings } = photo;
  const conductors = conductorsWithWords(photo);
  const terminations = useTerminations({ job, work, photo });
  const [history, setHistory] = useState<History<Said>>(() => begin({ pointed: {}, ordered: {} }));
  const { pointed, ordered } = history.present;
  const pairs: Pairs = { ...ordered, ...pointed };
  const known = knownPairs(work.view.compared, photo.id);
  const shown: Pairs = { ...known, ...pairs };
  const [chosen, setChosen] = useState<string | null>(null);
  const next = chosen ?? terminations.find((item) => shown[item.id] === undefined)?.id ?? null;
  const count = Object.keys(pairs).length;
  const label = new Map(conductors.map((c, k) => [c.id, String(k + 1)]));

  const point = (conductor: string): void => {
    if (next === null) return;
    const others = (all: Pairs): Pairs =>
      Object.fromEntries(Object.entries(all).filter(([id, c]) => c !== conductor && id !== next));
    setHistory(step(history, { ordered: others(ordered), pointed: { ...others(pointed), [next]: conductor } }));
    setChosen(null);
  };
  const keep = (): void => {
    const said = { by: job.by, at: now() };
    work.change((so) => {
      const entries = { ...so.entries };
      for (const [id, conductor] of Object.entries(pairs)) {
        const sighting = sightingOf(photo.id, conductor, pointed[id] !== undefined, said);
        entries[id] = { ...entries[id], sightings: [...(entries[id]?.sightings ?? []), sighting] };
      }
      return { ...so, entries };
    });
    navigate(to.turnover(job.id, 'terminations'));
  };
  const chosenNow = terminations.find((item) => item.id === next);
  return (
    <TurnoverPage
      job={job}
      title={t('screen.pair.title', { photo: findings.photo.name })}
      within="terminations"
      steps={{
        canUndo: history.past.length > 0,
        canRedo: history.future.length > 0,
        undo: () => setHistory(undo(history)),
        redo: () => setHistory(redo(history)),
      }}
      picture={
        <section
          className="picture-area"
          aria-label={t('screen.picture.region')}
          style={{ '--aspect': findings.workingWidth / findings.workingHeight } as CSSProperties}
        >
          <Stage
            bytes={bytes}
            picture={{ width: findings.workingWidth, height: findings.workingHeight }}
            conductors={conductors}
            references={[]}
            length={[]}
            selected={next === null ? null : (shown[next] ?? null)}
            outlines
            mode="look"
            stroke={[]}
            crossings={[]}
            standingOf={() => 'by color'}
            labelOf={(id) => label.get(id) ?? '?'}
            onTouch={(_at, conductor) => conductor && point(conductor.id)}
            onDraw={() => {}}
          />
        </section>
      }
      action={
        <button type="button" className="key main" disabled={count === 0} onClick={keep}>
          {t('screen.pair.keep', { count })}
        </button>
      }
    >
      <p className="soft">{t('screen.pair.how')}</p>
      <p role="status">
        {chosenNow ? t('screen.pair.next', { place: placeWord(chosenNow) }) : t('screen.pair.all-said')}
      </p>
      {terminations.length === 0 && (
        <p className="note">
          {t('screen.pair.nowhere')}{' '}
          <Link href={to.turnover(job.id, 'terminations')}>{t('screen.turnover.terminations')}</Link>
        </p>
      )}
      {terminations.length > conductors.length && <p className="note">{t('screen.pair.too-few')}</p>}
      {terminations.length > 0 && terminations.length <= conductors.length && (
        <button
          type="button"
          className="key wide"
          disabled={terminations.every((item) => shown[item.id] !== undefined)}
          onClick={() =>
            setHistory(
              step(history, { pointed, ordered: pairInOrder(terminations, conductors, { ...known, ...pointed }) }),
            )
          }
        >
          {t(terminations.length === conductors.length ? 'screen.pair.in-order' : 'screen.pair.in-order-some', {
            count: terminations.length,
            all: conductors.length,
          })}
        </button>
      )}
      <ol className="stack turnover-list">
        {terminations.map((item) => (
          <PairRow
            key={item.id}
            item={item}
            active={item.id === next}
            conductor={conductors.find((c) => c.id === shown[item.id])}
            label={label.get(shown[item.id] ?? '') ?? null}
            byOrder={ordered[item.id] !== undefined && pointed[item.id] === undefined}
            onPress={() => setChosen(item.id)}
          />
        ))}
      </ol>
      {next !== null && (
        <fieldset className="row pair-keys">
          <legend>{t('screen.turnover.which')}</legend>
          {conductors.map((c) => (
            <button key={c.id} type="button" className="key" onClick={() => point(c.id)}>
              <span className="tag">{label.get(c.id)}</span>
              <Cable insulation={c.insulation} stripe={c.stripe} word={c.userWord} />
            </button>
          ))}
        </fieldset>
      )}
    </TurnoverPage>
  );
}

/** What has been said of this photo before. */
const knownPairs = (compared: readonly Compared[], photo: string): Pairs =>
  Object.fromEntries(
    compared.flatMap(({ termination, sight }) =>
      sight.kind === 'seen' && sight.photo.id === photo ? [[termination.id, sight.conductor.id]] : [],
    ),
  );

/** Terminations of the place where the photo was taken; those of its last place where there are several. */
function useTerminations({ work, photo }: PairProps): readonly Termination[] {
  const { places } = work.view.turnover ?? EMPTY_TURNOVER;
  const place = places.findLast((p) => p.photo === photo.id);
  return place
    ? terminationsAt(
        place,
        work.view.compared.map((c) => c.termination),
      )
    : [];
}

interface RowProps {
  readonly item: Termination;
  readonly active: boolean;
  readonly conductor: ReturnType<typeof conductorsWithWords>[number] | undefined;
  readonly label: string | null;
  readonly byOrder: boolean;
  readonly onPress: () => void;
}

function PairRow({ item, active, conductor, label, byOrder, onPress }: RowProps) {
  return (
    <li>
      <button type="button" className="key plain-row" aria-pressed={active} onClick={onPress}>
        <b>{placeWord(item)}</b>
        <small>
          {item.load} {item.color && t('screen.pair.expected', { color: colorWord(item.color) })}
        </small>
        {conductor ? (
          <span className="row">
            <span className="tag">{label}</span>
            <Cable insulation={conductor.insulation} stripe={conductor.stripe} word={conductor.userWord} />
            {byOrder && <small>{t('screen.pair.by-order')}</small>}
          </span>
        ) : (
          <span className="soft">{t('screen.pair.open')}</span>
        )}
      </button>
    </li>
  );
}
