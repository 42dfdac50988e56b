import { CancelRow } from '../../parts/cancel-row';
import type { Workbench } from '../../state/use-workbench';
import { percent } from '../../text/numbers';
import { t } from '../../text/t';

/** Below this a pairing is called uncertain (flow: Crossing). */
const SURE_LINK = 0.8;

interface CrossingKeysProps {
  readonly bench: Workbench;
  readonly labelOf: (conductor: string) => string;
}

/** One key for each crossing of the selected conductor: exchange which end goes on where. Numbered as on the picture. */
export function CrossingKeys({ bench, labelOf }: CrossingKeysProps) {
  return (
    <>
      <p role="status">{t('screen.crossing.how')}</p>
      <div className="deck-row crossing-keys">
        {bench.crossings.map((choice, k) => {
          const values = { number: k + 1, label: labelOf(choice.other.id), share: percent(choice.asTraced) };
          const sure = choice.asTraced >= SURE_LINK;
          return (
            <button
              key={`${choice.at[0]}-${choice.at[1]}`}
              type="button"
              className="key"
              onClick={() => bench.flip(choice)}
            >
              {t(sure ? 'screen.crossing.exchange' : 'screen.crossing.exchange-unsure', values)}
            </button>
          );
        })}
      </div>
      <CancelRow onCancel={() => bench.setMode('look')} />
    </>
  );
}
