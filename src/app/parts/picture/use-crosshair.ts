import { type KeyboardEvent, useState } from 'react';
import type { Point } from '../../../flow';
import type { Size } from '../../geometry/view';

const STEPS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

interface CrosshairHandlers {
  readonly onTap: (at: Point) => void;
  readonly onZoom: (factor: number) => void;
}

/** The keyboard's finger: arrows move it (Shift: far), Enter taps, plus and minus zoom. Points are window pixels. */
export function useCrosshair(window: Size | null, { onTap, onZoom }: CrosshairHandlers) {
  const [at, setAt] = useState<Point | null>(null);

  function onKeyDown(event: KeyboardEvent): void {
    if (!window) return;
    const from = at ?? [window.width / 2, window.height / 2];
    const step = STEPS[event.key];
    if (step) {
      const far = event.shiftKey ? 48 : 8;
      const clamp = (value: number, most: number): number => Math.min(most, Math.max(0, value));
      setAt([clamp(from[0] + step[0] * far, window.width), clamp(from[1] + step[1] * far, window.height)]);
    } else if (event.key === 'Enter' || event.key === ' ') onTap(from);
    else if (event.key === '+' || event.key === '=') onZoom(1.5);
    else if (event.key === '-') onZoom(1 / 1.5);
    else return;
    event.preventDefault();
  }
  return { crosshair: at, bind: { onKeyDown, onBlur: () => setAt(null) } };
}
