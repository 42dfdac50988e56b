import type { ReactNode } from 'react';
import type { Glance } from '../../../inspect';

interface FrameOverlayProps {
  readonly glance: Glance;
  readonly perSecond?: number;
  readonly children: ReactNode;
}

/** A drawing over the camera picture, in pixels of the view that was looked at. Words beside it say the same. */
export function FrameOverlay({ glance, perSecond, children }: FrameOverlayProps) {
  return (
    <svg
      className="live-outlines"
      viewBox={`0 0 ${glance.width} ${glance.height}`}
      preserveAspectRatio="xMidYMid meet"
      aria-hidden="true"
      data-per-second={perSecond?.toFixed(1)}
    >
      {children}
    </svg>
  );
}
