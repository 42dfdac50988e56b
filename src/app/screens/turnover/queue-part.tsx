import { useRef } from 'react';
import type { PhotoPlace } from '../../../flow';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { usePhotoQueue } from '../../state/use-photo-queue';
import { say } from '../../text/say';
import { t } from '../../text/t';
import type { PartProps } from './part-props';
import { TurnoverPage } from './turnover-page';

/** Photos in bulk: taken in, kept, then read one by one. */
export function QueuePart({ job, work }: PartProps) {
  const queue = usePhotoQueue(job);
  const { waiting, running, taking, read, twice, failed, problem } = queue;
  const all = read + waiting.length;
  return (
    <TurnoverPage
      job={job}
      title={t('screen.turnover.queue')}
      current="queue"
      action={
        running ? (
          <button type="button" className="key main" onClick={queue.pause}>
            {t('screen.turnover.pause')}
          </button>
        ) : (
          <button type="button" className="key main" disabled={waiting.length === 0} onClick={queue.run}>
            {t('screen.turnover.run', { count: waiting.length })}
          </button>
        )
      }
    >
      {problem && <ProblemNote problem={problem} />}
      <Choose onFiles={queue.take} busy={taking !== null} />
      <p className="soft">{t('screen.turnover.queue-how')}</p>
      {taking && <Bar label={t('screen.turnover.taking', taking)} {...taking} />}
      {all > 0 && <Bar label={t('screen.turnover.reading', { done: read, of: all })} done={read} of={all} />}
      {twice.length > 0 && (
        <details className="note">
          <summary>{t('screen.turnover.twice', { count: twice.length })}</summary>
          <p>{twice.join(', ')}</p>
        </details>
      )}
      {failed.length > 0 && (
        <section className="card stack">
          <ul className="stack">
            {failed.map((f) => (
              <li key={f.id} className="row spread">
                <span>
                  <b>{f.name}</b> {say(f.problem.what)}
                </span>
                <button type="button" className="key" onClick={() => queue.discard(f.id)}>
                  {t('screen.remove')}
                </button>
              </li>
            ))}
          </ul>
          <button type="button" className="key" disabled={running} onClick={queue.retry}>
            {t('screen.turnover.retry')}
          </button>
        </section>
      )}
      <ByOrder job={job} work={work} />
    </TurnoverPage>
  );
}

function Bar({ label, done, of }: { readonly label: string; readonly done: number; readonly of: number }) {
  return (
    <label className="field" role="status">
      <span>{label}</span>
      <progress className="turnover-bar" max={of} value={done} />
    </label>
  );
}

function Choose({ onFiles, busy }: { readonly onFiles: (files: readonly File[]) => void; readonly busy: boolean }) {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const take = (list: FileList | null): void => {
    const pictures = [...(list ?? [])].filter((f) => f.type.startsWith('image/') || /\.hei[cf]$/i.test(f.name));
    if (pictures.length > 0) onFiles(pictures);
  };
  return (
    <div className="row">
      {(
        [
          [files, 'screen.turnover.choose-photos', {}],
          // Not in React's types; browsers without it let single files be chosen.
          [folder, 'screen.turnover.choose-folder', { webkitdirectory: '' }],
        ] as const
      ).map(([input, code, more]) => (
        <span key={code}>
          <button type="button" className="key" disabled={busy} onClick={() => input.current?.click()}>
            {t(code)}
          </button>
          <input
            ref={input}
            type="file"
            accept="image/*,.heic,.heif"
            multiple
            hidden
            aria-label={t(code)}
            {...more}
            onChange={(event) => {
              take(event.target.files);
              event.target.value = '';
            }}
          />
        </span>
      ))}
    </div>
  );
}

/** Photos without a place, given to the lines of the schedule that have none, one by one. */
function ByOrder({ job, work }: PartProps) {
  const { now } = useServices();
  const { turnover, compared } = work.view;
  const placed = new Set(turnover.places.map((p) => p.photo));
  const free = job.photos.filter((photo) => !placed.has(photo.id));
  const open = compared.filter((c) => c.sight.kind === 'no photo' && c.termination.part === 'pole');
  const count = Math.min(free.length, open.length);
  if (count === 0) return null;
  const assign = (): void => {
    const at = now();
    const places = free.slice(0, count).flatMap((photo, k): PhotoPlace[] => {
      const t = open[k]?.termination;
      return t
        ? [
            {
              photo: photo.id,
              panel: t.panel,
              ...(t.space === null ? {} : { space: t.space }),
              termination: t.id,
              how: 'by order',
              by: job.by,
              at,
            },
          ]
        : [];
    });
    work.change((so) => ({ ...so, places: [...so.places, ...places] }));
  };
  return (
    <section className="card stack">
      <p>{t('screen.turnover.order', { free: free.length, open: open.length })}</p>
      <button type="button" className="key" onClick={assign}>
        {t('screen.turnover.by-order', { count })}
      </button>
    </section>
  );
}
