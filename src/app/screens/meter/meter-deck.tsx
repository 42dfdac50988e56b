import { UndoKeys } from '../../parts/undo-keys';
import type { PhotoView } from '../../state/use-photo-view';
import { sayOf } from '../../text/say-of';
import { t } from '../../text/t';
import { NumberPad } from './number-pad';
import type { MeterState } from './use-meter';

interface MeterDeckProps {
  readonly meter: MeterState;
  readonly view: PhotoView;
  /** The safety steps are not all acknowledged: nothing may be typed yet. */
  readonly locked: boolean;
}

/** The pad under the thumb while a check is in hand. */
export function MeterDeck({ meter, view, locked }: MeterDeckProps) {
  if (locked || !meter.target) {
    return (
      <div className="deck-row">
        <UndoKeys />
      </div>
    );
  }
  if (meter.asked) {
    return (
      <>
        <p className="note caution" role="alert">
          {sayOf(meter.asked, view.labelOf)}
        </p>
        <div className="deck-row">
          <button type="button" className="key main" onClick={meter.correct}>
            {t('screen.meter.correct')}
          </button>
          <button type="button" className="key" onClick={meter.confirm}>
            {t('screen.meter.confirm')}
          </button>
        </div>
      </>
    );
  }
  return <NumberPad meter={meter} target={meter.target} labelOf={view.labelOf} />;
}
