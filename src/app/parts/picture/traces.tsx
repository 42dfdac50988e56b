import { memo } from 'react';
import type { NamedConductor, Point, Standing } from '../../../flow';
import { type PlacedTag, placeTags, TAG_HALF_HEIGHT, tagHalfWidth } from '../../geometry/place-tags';
import { type Size, toWindow, type View } from '../../geometry/view';

interface TracesProps {
  readonly conductors: readonly NamedConductor[];
  readonly view: View;
  readonly window: Size | null;
  readonly selected: string | null;
  readonly standingOf: (conductor: string) => Standing;
  readonly labelOf: (conductor: string) => string;
  /** What else the tag says where there is room, number included. */
  readonly tagOf?: ((conductor: string) => string) | undefined;
}

/** Outlines and numbers over the picture. The table beside it says the same to those who cannot see it. */
export const Traces = memo(function Traces({
  conductors,
  view,
  window,
  selected,
  standingOf,
  labelOf,
  tagOf,
}: TracesProps) {
  const tags = placeTags(
    conductors.map((c) => ({
      id: c.id,
      label: tagOf ? tagOf(c.id) : labelOf(c.id),
      short: labelOf(c.id),
      line: c.centerline.map((p) => toWindow(view, p)),
    })),
    selected,
    window,
  );
  return (
    <>
      {conductors.map((c) => {
        const d = c.outlines.map((ring) => pathOf(ring, view)).join(' ');
        const isSelected = c.id === selected;
        return (
          <g key={c.id}>
            <path className="trace-under" d={d} data-selected={isSelected} />
            <path className="trace" d={d} data-standing={standingOf(c.id)} data-selected={isSelected} />
          </g>
        );
      })}
      {/* Above every outline: a number that another conductor's outline runs through cannot be read. */}
      {[...tags].map(([id, tag]) => (
        <Tag key={id} tag={tag} selected={id === selected} />
      ))}
    </>
  );
});

function Tag({ tag, selected }: { readonly tag: PlacedTag; readonly selected: boolean }) {
  const { at, text, leader } = tag;
  const half = tagHalfWidth(text);
  return (
    <g className="trace-tag" data-selected={selected}>
      {leader && <path className="tag-leader" d={`M${leader[0]} ${leader[1]}L${at[0]} ${at[1]}`} />}
      {leader && <circle className="tag-foot" cx={leader[0]} cy={leader[1]} r="3" />}
      <g transform={`translate(${at[0]} ${at[1]})`}>
        <rect x={-half} y={-TAG_HALF_HEIGHT} width={half * 2} height={TAG_HALF_HEIGHT * 2} />
        <text>{text}</text>
      </g>
    </g>
  );
}

function pathOf(ring: readonly Point[], view: View): string {
  const points = ring.map((p) => {
    const [x, y] = toWindow(view, p);
    return `${x.toFixed(1)} ${y.toFixed(1)}`;
  });
  return points.length > 0 ? `M${points.join('L')}Z` : '';
}
