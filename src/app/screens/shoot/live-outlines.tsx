import type { Polygon } from '../../../flow';
import type { Glance } from '../../../inspect';

const pathOf = (ring: Polygon): string => `M${ring.map(([x, y]) => `${x} ${y}`).join('L')}Z`;

/** Rough outlines over the camera picture: white dashes on black, seen before any color. Words say the same beside it. */
export function LiveOutlines({ glance, perSecond }: { readonly glance: Glance; readonly perSecond: number }) {
  const d = glance.conductors.map((rings) => rings.map(pathOf).join('')).join('');
  return (
    <svg
      className="live-outlines"
      viewBox={`0 0 ${glance.width} ${glance.height}`}
      preserveAspectRatio="xMidYMid meet"
      aria-hidden="true"
      data-per-second={perSecond.toFixed(1)}
    >
      <path className="live-under" d={d} />
      <path className="live-line" d={d} />
    </svg>
  );
}
