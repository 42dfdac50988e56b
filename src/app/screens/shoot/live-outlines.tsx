import type { Polygon } from '../../../flow';
import type { Glance } from '../../../inspect';
import { FrameOverlay } from './frame-overlay';

const pathOf = (ring: Polygon): string => `M${ring.map(([x, y]) => `${x} ${y}`).join('L')}Z`;

/** Rough outlines over the camera picture: white dashes on black, seen before any color. Words say the same beside it. */
export function LiveOutlines({ glance, perSecond }: { readonly glance: Glance; readonly perSecond: number }) {
  const d = glance.conductors.map((rings) => rings.map(pathOf).join('')).join('');
  return (
    <FrameOverlay glance={glance} perSecond={perSecond}>
      <path className="live-under" d={d} />
      <path className="live-line" d={d} />
    </FrameOverlay>
  );
}
