import { type ReactNode, useEffect, useRef } from 'react';
import { t } from '../text/t';

/** The heading of a screen. It takes the focus when the screen appears, so that a screen reader starts there. */
export function ScreenHeading({ children }: { readonly children: ReactNode }) {
  const ref = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${ref.current?.textContent ?? ''} - ${t('screen.app')}`;
    // With the frame that lays the screen out: asked for now, both would want the layout at once, on top of the work that made
    // the screen, in one stretch.
    const frame = requestAnimationFrame(() => {
      // The scroller outlives the screen: without this the new one would begin where the last was left.
      ref.current?.closest('main')?.scrollTo(0, 0);
      ref.current?.focus({ preventScroll: true });
    });
    return () => cancelAnimationFrame(frame);
  }, []);
  return (
    <h1 ref={ref} tabIndex={-1}>
      {children}
    </h1>
  );
}
