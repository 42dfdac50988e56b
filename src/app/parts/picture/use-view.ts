import { useCallback, useEffect, useRef, useState } from 'react';
import { keepInside, type Size, type View, wholeView } from '../../geometry/view';

/** The zoom and place of the picture; starts whole, and stays inside the window when that changes size. */
export function useView(picture: Size, window: Size | null): [View | null, (change: (view: View) => View) => void] {
  const [view, setView] = useState<View | null>(null);
  const shown = useRef<Size | null>(null);
  const { width, height } = picture;

  useEffect(() => {
    if (!window) return;
    const size = { width, height };
    const same = shown.current?.width === width && shown.current.height === height;
    shown.current = size;
    setView((old) => {
      const whole = wholeView(size, window);
      return !old || !same || old.scale <= whole.scale ? whole : keepInside(old, size, window);
    });
  }, [width, height, window]);

  const change = useCallback((f: (view: View) => View) => setView((old) => old && f(old)), []);
  return [view, change];
}
