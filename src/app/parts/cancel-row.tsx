import { t } from '../text/t';

/** The way out of a mode of the picture, in the deck. */
export function CancelRow({ onCancel }: { readonly onCancel: () => void }) {
  return (
    <div className="deck-row">
      <button type="button" className="key wide" onClick={onCancel}>
        {t('screen.cancel')}
      </button>
    </div>
  );
}
