import { type RefObject, useEffect, useRef } from 'react';
import type { Point } from '../../../flow';

/** Zooms with the wheel. React's own wheel listener is passive and could not keep the page from scrolling. */
export function useWheelZoom(ref: RefObject<HTMLElement | null>, zoom: (at: Point, factor: number) => void): void {
  const latest = useRef(zoom);
  useEffect(() => {
    latest.current = zoom;
  });
  useEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      latest.current([event.clientX - box.left, event.clientY - box.top], Math.exp(-event.deltaY / 400));
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [ref]);
}
