import type { Point } from '../../../flow';
import { toWindow, type View } from '../../geometry/view';

const RADIUS = 12;

/** Numbered diamonds at the crossings that the keys below speak of. */
export function CrossingMarks({ places, view }: { readonly places: readonly Point[]; readonly view: View }) {
  return (
    <>
      {places.map((place, k) => {
        const [x, y] = toWindow(view, place);
        return (
          <g key={`${place[0]}-${place[1]}`} className="crossing-mark" transform={`translate(${x} ${y})`}>
            <path d={`M0 ${-RADIUS}L${RADIUS} 0L0 ${RADIUS}L${-RADIUS} 0Z`} />
            <text>{k + 1}</text>
          </g>
        );
      })}
    </>
  );
}
