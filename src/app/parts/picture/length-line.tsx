import type { Point } from '../../../flow';
import { toWindow, type View } from '../../geometry/view';

/** Half of the tick at an end, CSS pixels. */
const TICK = 9;

/** A length that the user points out: a line from end to end with a tick at each. */
export function LengthLine({ ends, view }: { readonly ends: readonly Point[]; readonly view: View }) {
  const [from, to] = ends.map((end) => toWindow(view, end));
  if (!from) return null;
  if (!to) return <path className="length-line" d={`M${from[0] - TICK} ${from[1]}h${2 * TICK}`} />;
  const size = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [x, y] = [(-TICK * (to[1] - from[1])) / size, (TICK * (to[0] - from[0])) / size];
  const ticks = [from, to].map((end) => `M${end[0] - x} ${end[1] - y}L${end[0] + x} ${end[1] + y}`).join('');
  const d = `M${from[0]} ${from[1]}L${to[0]} ${to[1]}${ticks}`;
  return (
    <>
      <path className="length-line under" d={d} />
      <path className="length-line" d={d} />
    </>
  );
}
