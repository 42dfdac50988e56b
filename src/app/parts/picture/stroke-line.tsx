import type { Point } from '../../../flow';
import { toWindow, type View } from '../../geometry/view';

/** The line being drawn along a conductor that was missed. */
export function StrokeLine({ stroke, view }: { readonly stroke: readonly Point[]; readonly view: View }) {
  if (stroke.length === 0) return null;
  const points = stroke.map((p) => toWindow(view, p).join(' '));
  const d = `M${points.join('L')}${stroke.length === 1 ? 'h1' : ''}`;
  return (
    <>
      <path className="stroke-under" d={d} />
      <path className="stroke" d={d} />
    </>
  );
}
