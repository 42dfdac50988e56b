import type { NamedConductor } from '../../../flow';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';
import type { Correctable, Mark } from './marks';

/** A stripe less likely than this to hide on the far side is not spoken of. */
const WORTH_SAYING = 0.02;

interface MarkListProps {
  readonly marks: readonly Mark[];
  readonly conductor: NamedConductor;
  readonly onCorrect: (what: Exclude<Correctable, null>) => void;
}

/** What was read along the conductor, numbered as in the picture, each with a way to correct it. */
export function MarkList({ marks, conductor, onCorrect }: MarkListProps) {
  const { stripe, hiddenStripe, userWord } = conductor;
  const name = userWord?.name ?? conductor.insulation.best;
  // Green-yellow is striped by itself: neither "no stripe" nor "one may hide" can be said of it.
  const isStriped = name === 'green-yellow';
  const open = !stripe && !isStriped && userWord?.stripe === undefined && conductor.covering === 'insulated';
  return (
    <section className="stack" aria-labelledby="marks">
      <h2 id="marks">{t('screen.mark.title')}</h2>
      {marks.length > 0 && (
        <ol className="mark-list">
          {marks.map(({ key, sentence, corrects }) => (
            <li key={key}>
              <div className="row spread">
                <span>{sentence}</span>
                {corrects && (
                  <button type="button" className="key" onClick={() => onCorrect(corrects)}>
                    {t('screen.mark.correct')}
                  </button>
                )}
              </div>
            </li>
          ))}
        </ol>
      )}
      <div className="row spread">
        <p>
          {marks.length === 0 && `${t(isStriped ? 'screen.mark.none-but-color' : 'screen.mark.none')} `}
          {open && hiddenStripe >= WORTH_SAYING && t('screen.stripe.hidden', { share: percent(hiddenStripe) })}
        </p>
        <button type="button" className="key" onClick={() => onCorrect('tape')}>
          {t('screen.mark.add')}
        </button>
      </div>
    </section>
  );
}
