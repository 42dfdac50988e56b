import { Swatch } from '../../parts/swatch';
import type { Mark } from './marks';

const share = (v: number): string => `${Math.round(1000 * v) / 10}%`;

/** Under the straightened picture: a numbered bar for each mark. Decoration: the list below says the same. */
export function MarkLane({ marks }: { readonly marks: readonly Mark[] }) {
  return (
    <div className="mark-lane" aria-hidden="true">
      {marks.map(({ key, kind, stretch, color }, k) =>
        stretch ? (
          <div
            key={key}
            className={`mark-bar mark-${kind}`}
            style={{ left: share(stretch[0]), width: share(stretch[1] - stretch[0]) }}
          >
            <span className="mark-paint">{color && <Swatch name={color} />}</span>
            <b>{k + 1}</b>
          </div>
        ) : null,
      )}
    </div>
  );
}
