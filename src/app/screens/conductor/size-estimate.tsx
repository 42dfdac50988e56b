import {
  areaMm2,
  diameterBy,
  isWireSize,
  METRIC_SIZES,
  type SizeCandidate,
  sizeRange,
  sizesBeside,
  sizesByLength,
  WIRE_SIZES,
  type WireSize,
} from '../../../color';
import type { JobPhoto, NamedConductor, SiteKnowledge } from '../../../flow';
import { Share } from '../../parts/share';
import type { PhotoView } from '../../state/use-photo-view';
import type { Workbench } from '../../state/use-workbench';
import { percent, withSign } from '../../text/numbers';
import { t } from '../../text/t';

/** A size of the American scale with its cross section; a metric one says it itself. */
const withArea = (size: WireSize): string =>
  size.endsWith('AWG') ? `${size} (${withSign(String(Number(areaMm2(size).toPrecision(2))))} mm²)` : size;

interface Estimate {
  readonly candidates: readonly SizeCandidate[];
  /** What the estimate rests on, a sentence each. */
  readonly basis: readonly string[];
}

/** Beside a conductor whose size the user said: of the same kind and, mostly, as far from the camera. */
function besideKnown(view: PhotoView, { id, widthPx }: NamedConductor): Estimate | null {
  const known = view.conductors.find((c) => c.id !== id && isWireSize(c.userWord?.size));
  const size = known?.userWord?.size;
  if (!known || !isWireSize(size)) return null;
  return {
    candidates: sizesBeside({ size, widthPx: known.widthPx }, widthPx),
    basis: [t('screen.size.beside', { label: view.labelOf(known.id), size })],
  };
}

/** By a length that the user pointed out, in the sizes of the site's trade. */
function byLength({ scale }: JobPhoto, { jurisdiction }: SiteKnowledge, { widthPx }: NamedConductor): Estimate | null {
  if (!scale) return null;
  const [[x0, y0], [x1, y1]] = scale.ends;
  const length = { mm: scale.mm, px: Math.hypot(x1 - x0, y1 - y0) };
  const across = diameterBy(length, widthPx);
  if (!across) return null;
  const sizes = jurisdiction === 'US' || jurisdiction === 'CA' ? WIRE_SIZES : METRIC_SIZES;
  const mm = withSign(across.mm.toFixed(across.mm < 10 ? 1 : 0));
  return {
    candidates: sizesByLength(length, widthPx, sizes),
    basis: [
      t('screen.size.across', { mm, share: percent(across.error) }),
      t('screen.size.by-length', { mm: withSign(String(Number(scale.mm.toPrecision(3)))) }),
    ],
  };
}

interface SizeEstimateProps {
  readonly bench: Workbench;
  readonly view: PhotoView;
  readonly conductor: NamedConductor;
}

/** What size it may be, beside a conductor of known size or by a known length. Nothing where the user gave neither. */
export function SizeEstimate({ bench, view, conductor }: SizeEstimateProps) {
  const own = conductor.userWord?.size;
  if (own) return <p>{t('screen.size.said', { size: own })}</p>;
  if (conductor.covering === 'bare' || conductor.widthPx <= 0) return null;
  const estimate = besideKnown(view, conductor) ?? byLength(bench.photo, bench.job.site, conductor);
  if (!estimate) return null;
  const range = sizeRange(estimate.candidates);
  return (
    <section className="stack" aria-labelledby="size">
      <h2 id="size">{t('screen.size.title')}</h2>
      {range ? (
        <>
          <p>
            {t(range.from === range.to ? 'screen.size.one' : 'screen.size.range', {
              from: withArea(range.from),
              to: withArea(range.to),
              share: percent(range.probability),
            })}
          </p>
          <ul className="stack">
            {estimate.candidates.slice(0, 4).map((c) => (
              <li key={c.size}>
                <Share of={withArea(c.size)} probability={c.probability} />
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p>{t('screen.size.none')}</p>
      )}
      {estimate.basis.map((sentence) => (
        <p key={sentence} className="soft">
          {sentence}
        </p>
      ))}
    </section>
  );
}
