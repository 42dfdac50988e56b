import type { PhotoView } from '../../state/use-photo-view';
import { leadsWord } from '../../text/leads-word';
import { t } from '../../text/t';
import type { MeterState } from './use-meter';

/** Every check still to be made, most telling first; any of them can be taken in hand. */
export function CheckList({ meter, view }: { readonly meter: MeterState; readonly view: PhotoView }) {
  const { next } = meter;
  if (next.length === 0) return null;
  return (
    <details className="card">
      <summary>{t('screen.meter.plan', { count: next.length })}</summary>
      <ol className="stack">
        {next.map((check) => (
          <li key={check.id}>
            <button
              type="button"
              className="key check-key"
              aria-pressed={check.id === meter.check?.id}
              onClick={() => meter.pick(check.id)}
            >
              <b>{leadsWord(check, view.labelOf)}</b>
              <small>
                {t(`screen.function.${check.function}`)}
                {check.condition && ` · ${t(`screen.condition.${check.condition}`)}`}
              </small>
            </button>
          </li>
        ))}
      </ol>
    </details>
  );
}
