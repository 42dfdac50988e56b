import { useState } from 'react';
import { KNOWN_LENGTHS } from '../../../color';
import { TextField } from '../../parts/text-field';
import { useServices } from '../../services/context';
import type { Workbench } from '../../state/use-workbench';
import { lengthMm } from '../../text/length';
import { withSign } from '../../text/numbers';
import { t } from '../../text/t';

/** Longer things do not lie in a photo that shows conductors, mm. */
const MOST_MM = 3000;

/** Touch both ends of something whose length is known, say how long it is, and widths become millimeters. */
export function LengthKeys({ bench }: { readonly bench: Workbench }) {
  const { now } = useServices();
  const [typed, setTyped] = useState('');
  const [from, to] = bench.lengthEnds;
  const mm = lengthMm(typed);
  const give = (length: number): void => {
    if (!from || !to) return;
    bench.setScale({ ends: [from, to], mm: length, by: bench.job.by || t('screen.by.nobody'), at: now() });
  };
  return (
    <>
      <p role="status">{t(to ? 'screen.length.what' : from ? 'screen.length.other-end' : 'screen.length.how')}</p>
      {to && (
        <>
          <div className="deck-row">
            <button type="button" className="key" onClick={() => give(KNOWN_LENGTHS.rail)}>
              {t('screen.length.rail')}
            </button>
            <button type="button" className="key" onClick={() => give(KNOWN_LENGTHS.card)}>
              {t('screen.length.card', { mm: withSign(String(KNOWN_LENGTHS.card)) })}
            </button>
          </div>
          <TextField label={t('screen.length.own')} value={typed} onChange={setTyped} />
        </>
      )}
      <div className="deck-row">
        <button type="button" className="key" onClick={() => bench.setMode('look')}>
          {t('screen.cancel')}
        </button>
        {!from && bench.photo.scale && (
          <button type="button" className="key" onClick={() => bench.setScale(null)}>
            {t('screen.length.forget')}
          </button>
        )}
        {to && (
          <button
            type="button"
            className="key main"
            disabled={mm === null || mm > MOST_MM}
            onClick={() => mm !== null && give(mm)}
          >
            {t('screen.length.keep')}
          </button>
        )}
      </div>
    </>
  );
}
