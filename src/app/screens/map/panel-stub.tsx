import type { PanelConductor, PanelSpace } from '../../../identify';
import type { PhotoView } from '../../state/use-photo-view';

const SIGNS: Readonly<Record<PanelConductor['verdict'], string>> = { 'as expected': '=', differs: '≠', undecided: '?' };
const LENGTH = 72;

interface PanelStubProps {
  readonly x: number;
  readonly y: number;
  readonly space: PanelSpace;
  readonly view: PhotoView;
  readonly end: 'start' | 'end';
}

/** One pole space: its number and what lands there, in half height when a tandem breaker holds two. */
export function PanelStub({ x, y, space, view, end }: PanelStubProps) {
  const inward = end === 'start' ? 1 : -1;
  const from = x + inward * 4;
  const count = space.conductors.length;
  const height = count > 1 ? 18 : 22;
  return (
    <>
      <text className="space-number" x={x - inward * 6} y={y} textAnchor={end === 'start' ? 'end' : 'start'}>
        {space.space}
      </text>
      {space.conductors.slice(0, 2).map((c, k) => {
        const middle = y + (count > 1 ? (k - 0.5) * 20 : 0);
        const bare = view.conductors.find((o) => o.id === c.id)?.covering === 'bare';
        return (
          <g key={c.id}>
            <rect
              className="stub"
              x={Math.min(from, from + inward * LENGTH)}
              y={middle - height / 2}
              width={LENGTH}
              height={height}
              fill={bare ? 'none' : `url(#hatch-${c.color})`}
            />
            <rect className="stub-tag" x={from + inward * 20 - 13} y={middle - 8} width="26" height="16" />
            <text className="stub-name" x={from + inward * 20} y={middle}>
              {view.labelOf(c.id)}
            </text>
            <rect
              className="stub-sign"
              data-verdict={c.verdict}
              x={from + inward * 54 - 10}
              y={middle - 8}
              width="20"
              height="16"
            />
            <text className="stub-name" x={from + inward * 54} y={middle}>
              {SIGNS[c.verdict]}
            </text>
          </g>
        );
      })}
    </>
  );
}
