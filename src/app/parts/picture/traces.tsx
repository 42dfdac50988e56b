import { memo } from 'react';
import type { NamedConductor, Point, Standing } from '../../../flow';
import { middle } from '../../geometry/polyline';
import { toWindow, type View } from '../../geometry/view';

interface TracesProps {
  readonly conductors: readonly NamedConductor[];
  readonly view: View;
  readonly selected: string | null;
  readonly standingOf: (conductor: string) => Standing;
  readonly labelOf: (conductor: string) => string;
}

/** Outlines and numbers over the picture. The table beside it says the same to those who cannot see it. */
export const Traces = memo(function Traces({ conductors, view, selected, standingOf, labelOf }: TracesProps) {
  return (
    <>
      {conductors.map((c) => {
        const d = c.outlines.map((ring) => pathOf(ring, view)).join(' ');
        const isSelected = c.id === selected;
        const [x, y] = toWindow(view, middle(c.centerline));
        const label = labelOf(c.id);
        const half = 8 + label.length * 4.5;
        return (
          <g key={c.id}>
            <path className="trace-under" d={d} data-selected={isSelected} />
            <path className="trace" d={d} data-standing={standingOf(c.id)} data-selected={isSelected} />
            <g className="trace-tag" data-selected={isSelected} transform={`translate(${x} ${y})`}>
              <rect x={-half} y={-12} width={half * 2} height={24} />
              <text>{label}</text>
            </g>
          </g>
        );
      })}
    </>
  );
});

function pathOf(ring: readonly Point[], view: View): string {
  const points = ring.map((p) => {
    const [x, y] = toWindow(view, p);
    return `${x.toFixed(1)} ${y.toFixed(1)}`;
  });
  return points.length > 0 ? `M${points.join('L')}Z` : '';
}
