import { areaMm2, isWireSize, sizeRange, sizesBeside, type WireSize } from '../../../color';
import type { NamedConductor } from '../../../flow';
import { Share } from '../../parts/share';
import type { PhotoView } from '../../state/use-photo-view';
import { percent, withSign } from '../../text/numbers';
import { t } from '../../text/t';

/** A size of the American scale with its cross section; a metric one says it itself. */
const withArea = (size: WireSize): string =>
  size.endsWith('AWG') ? `${size} (${withSign(String(Number(areaMm2(size).toPrecision(2))))} mm²)` : size;

/** What size it may be, beside a conductor whose size the user said. Nothing where none was said. */
export function SizeEstimate({ view, conductor }: { readonly view: PhotoView; readonly conductor: NamedConductor }) {
  const own = conductor.userWord?.size;
  if (own) return <p>{t('screen.size.said', { size: own })}</p>;
  const known = view.conductors.find((c) => c.id !== conductor.id && isWireSize(c.userWord?.size));
  const size = known?.userWord?.size;
  if (!known || !isWireSize(size) || conductor.covering === 'bare' || conductor.widthPx <= 0) return null;
  const candidates = sizesBeside({ size: size satisfies WireSize, widthPx: known.widthPx }, conductor.widthPx);
  const range = sizeRange(candidates);
  return (
    <section className="stack" aria-labelledby="size">
      <h2 id="size">{t('screen.size.title')}</h2>
      {range && (
        <p>
          {t(range.from === range.to ? 'screen.size.one' : 'screen.size.range', {
            from: withArea(range.from),
            to: withArea(range.to),
            share: percent(range.probability),
          })}
        </p>
      )}
      <ul className="stack">
        {candidates.slice(0, 4).map((c) => (
          <li key={c.size}>
            <Share of={withArea(c.size)} probability={c.probability} />
          </li>
        ))}
      </ul>
      <p className="soft">{t('screen.size.beside', { label: view.labelOf(known.id), size })}</p>
    </section>
  );
}
