import { useState } from 'react';
import { COLOR_NAMES, type ColorName, type ColorReference } from '../../../flow';
import type { Workbench } from '../../state/use-workbench';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';

/** Tap something of known color, say what it is, and every conductor is read again under the light it shows. */
export function ReferenceKeys({ bench }: { readonly bench: Workbench }) {
  const [known, setKnown] = useState(false);
  const at = bench.pendingReference;
  const { references } = bench.photo.findings;
  const give = (kind: ColorReference['kind'], name?: ColorName): void => {
    if (at) bench.setReferences([...references, name ? { at, kind, name } : { at, kind }]);
  };
  return (
    <>
      <p role="status">{t(at ? 'screen.reference.what' : 'screen.reference.how')}</p>
      {at && !known && (
        <div className="deck-row">
          <button type="button" className="key" onClick={() => give('white')}>
            {t('screen.reference.white')}
          </button>
          <button type="button" className="key" onClick={() => give('gray')}>
            {t('screen.reference.gray')}
          </button>
          <button type="button" className="key" onClick={() => setKnown(true)}>
            {t('screen.reference.known')}
          </button>
        </div>
      )}
      {at && known && (
        <label className="field">
          <span>{t('screen.reference.which')}</span>
          <select defaultValue="" onChange={(event) => give('known color', event.target.value as ColorName)}>
            <option value="" disabled>
              {t('screen.choose')}
            </option>
            {COLOR_NAMES.map((name) => (
              <option key={name} value={name}>
                {colorWord(name)}
              </option>
            ))}
          </select>
        </label>
      )}
      <div className="deck-row">
        <button type="button" className="key" onClick={() => bench.setMode('look')}>
          {t('screen.cancel')}
        </button>
        {references.length > 0 && (
          <button type="button" className="key" onClick={() => bench.setReferences([])}>
            {t('screen.reference.forget', { count: references.length })}
          </button>
        )}
      </div>
    </>
  );
}
