import { t } from '../../text/t';

const LENGTH_MM = 150;
const MM_PER_INCH = 25.4;

interface Mark {
  readonly at: number;
  readonly high: number;
  readonly text?: string;
}

const centimeters: readonly Mark[] = Array.from({ length: LENGTH_MM / 5 + 1 }, (_, i) =>
  i % 2 === 0 ? { at: i * 5, high: 5, text: String(i / 2) } : { at: i * 5, high: 3 },
);
const inches: readonly Mark[] = Array.from({ length: Math.floor((LENGTH_MM / MM_PER_INCH) * 4) + 1 }, (_, i) => ({
  at: (i * MM_PER_INCH) / 4,
  high: i % 4 === 0 ? 5 : 3,
  ...(i % 4 === 0 && { text: String(i / 4) }),
}));

/** A scale in centimeters and inches; one unit of the drawing is one millimeter on paper. */
export function Ruler() {
  return (
    <svg className="ruler" viewBox={`-3 0 ${LENGTH_MM + 6} 22`} role="img" aria-label={t('screen.sheet.scale')}>
      <path d={`M0 0.2H${LENGTH_MM}M0 21.8H${LENGTH_MM}`} />
      {centimeters.map(({ at, high, text }) => (
        <g key={`cm${at}`}>
          <path d={`M${at} 0v${high}`} />
          {text && (
            <text x={at} y={8.5}>
              {text}
            </text>
          )}
        </g>
      ))}
      {inches.map(({ at, high, text }) => (
        <g key={`in${at}`}>
          <path d={`M${at} 22v${-high}`} />
          {text && (
            <text x={at} y={15.8}>
              {text}
            </text>
          )}
        </g>
      ))}
      <text x={5} y={8.5} className="ruler-unit">
        {t('screen.sheet.cm')}
      </text>
      <text x={5} y={15.8} className="ruler-unit">
        {t('screen.sheet.inch')}
      </text>
    </svg>
  );
}
