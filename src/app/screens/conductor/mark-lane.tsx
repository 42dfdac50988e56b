import type { Mark } from './marks';

const WIDTH = 360;
const HEIGHT = 30;
/** Numbers of neighboring marks need at least this much room. */
const LEAST = 22;

/** Under the straightened picture: a numbered bracket for each mark. Decoration: the list below says the same. */
export function MarkLane({ marks }: { readonly marks: readonly Mark[] }) {
  return (
    <svg className="mark-lane" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {marks.map((mark, k) => {
        if (!mark.stretch) return null;
        const [from, to] = [mark.stretch[0] * WIDTH, mark.stretch[1] * WIDTH];
        const width = Math.max(3, to - from);
        const middle = Math.min(WIDTH - LEAST / 2, Math.max(LEAST / 2, (from + to) / 2));
        return (
          <g key={mark.key} className={`mark-${mark.kind}`}>
            <rect
              className="mark-bar"
              x={from}
              y={mark.kind === 'stripe' ? 0 : 4}
              width={width}
              height={mark.kind === 'stripe' ? 3 : 8}
              fill={mark.color ? `url(#hatch-${mark.color})` : undefined}
            />
            <text x={middle} y={HEIGHT - 5}>
              {k + 1}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
