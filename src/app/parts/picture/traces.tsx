import { memo } from 'react';
import type { NamedConductor, Point, Standing } from '../../../flow';
import { placeTags, TAG_HALF_HEIGHT, tagHalfWidth } from '../../geometry/place-tags';
import { toWindow, type View } from '../../geometry/view';

interface TracesProps {
  readonly conductors: readonly NamedConductor[];
  readonly view: View;
  readonly selected: string | null;
  readonly standingOf: (conductor: string) => Standing;
  readonly labelOf: (conductor: string) => string;
  /** What else the tag says where there is room, number included. */
  readonly tagOf?: ((conductor: string) => string) | undefined;
}

/** Outlines and numbers over the picture. The table beside it says the same to those who cannot see it. */
export const Traces = memo(function Traces({ conductors, view, selected, standingOf, labelOf, tagOf }: TracesProps) {
  const tags = placeTags(
    conductors.map((c) => ({
      id: c.id,
      label: tagOf ? tagOf(c.id) : labelOf(c.id),
      short: labelOf(c.id),
      line: c.centerline.map((p) => toWindow(view, p)),
    })),
    selected,
  );
  return (
    <>
      {conductors.map((c) => {
        const d = c.outlines.map((ring) => pathOf(ring, view)).join(' ');
        const isSelected = c.id === selected;
        const tag = tags.get(c.id);
        return (
          <g key={c.id}>
            <path className="trace-under" d={d} data-selected={isSelected} />
            <path className="trace" d={d} data-standing={standingOf(c.id)} data-selected={isSelected} />
            {tag && (
              <g className="trace-tag" data-selected={isSelected} transform={`translate(${tag.at[0]} ${tag.at[1]})`}>
                <rect
                  x={-tagHalfWidth(tag.text)}
                  y={-TAG_HALF_HEIGHT}
                  width={tagHalfWidth(tag.text) * 2}
                  height={TAG_HALF_HEIGHT * 2}
                />
                <text>{tag.text}</text>
              </g>
            )}
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
