import { useEffect } from 'react';
import type { NamedConductor } from '../../../flow';
import { middle } from '../../geometry/polyline';
import { lookAt, type Size, toWindow, type View } from '../../geometry/view';

/** Brings a conductor chosen elsewhere (list, map, link) into the window when its middle lies outside of it. */
export function useShowSelected(
  chosen: NamedConductor | undefined,
  picture: Size,
  window: Size | null,
  change: (f: (view: View) => View) => void,
): void {
  const { width, height } = picture;
  useEffect(() => {
    if (!chosen || !window) return;
    const at = middle(chosen.centerline);
    change((view) => {
      const [x, y] = toWindow(view, at);
      const seen = x > 0 && y > 0 && x < window.width && y < window.height;
      return seen ? view : lookAt(view, at, view.scale, { width, height }, window);
    });
  }, [chosen, window, change, width, height]);
}
