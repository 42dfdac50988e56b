import { useCallback, useEffect, useRef, useState } from 'react';
import { keepInside, type Size, type View, wholeView } from '../../geometry/view';

/**
 * The zoom and place of the picture. It starts whole; what was whole stays whole when the phone is turned, what was
 * zoomed stays inside the window.
 */
export function useView(picture: Size, window: Size | null): [View | null, (change: (view: View) => View) => void] {
  const [view, setView] = useState<View | null>(null);
  const shown = useRef<Size | null>(null);
  const whole = useRef(0);
  const { width, height } = picture;

  useEffect(() => {
    if (!window) return;
    const size = { width, height };
    const same = shown.current?.width === width && shown.current.height === height;
    shown.current = size;
    setView((old) => {
      const fit = wholeView(size, window);
      const wasWhole = !old || !same || old.scale <= whole.current;
      whole.current = fit.scale;
      return wasWhole || old.scale <= fit.scale ? fit : keepInside(old, size, window);
    });
  }, [width, height, window]);

  const change = useCallback((f: (view: View) => View) => setView((old) => old && f(old)), []);
  return [view, change];
}
