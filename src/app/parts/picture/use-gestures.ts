import { type PointerEvent, useRef, useState } from 'react';
import type { Point } from '../../../flow';

/** A finger that moved less than this (CSS px) has tapped. */
const SLOP = 10;
/** Held still this long (ms), the finger aims with the loupe instead of moving the picture. */
const HOLD = 220;

export interface GestureHandlers {
  /** One finger went down and up again, or aimed with the loupe and let go. */
  readonly onTap: (at: Point) => void;
  readonly onPan: (dx: number, dy: number) => void;
  readonly onPinch: (center: Point, factor: number, dx: number, dy: number) => void;
  /** While drawing: each place of the finger. */
  readonly onDraw: (at: Point) => void;
}

interface Touch {
  readonly start: Point;
  readonly at: Point;
}

type Doing = 'nothing' | 'deciding' | 'panning' | 'aiming' | 'drawing' | 'pinching';

/** Tap, pan, pinch, aim with the loupe, and draw, out of pointer events. Points are CSS pixels of the window. */
export function useGestures(drawing: boolean, handlers: GestureHandlers) {
  const touches = useRef(new Map<number, Touch>());
  const doing = useRef<Doing>('nothing');
  const holdTimer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const [aim, setAim] = useState<Point | null>(null);

  const place = (event: PointerEvent<HTMLElement>): Point => {
    const box = event.currentTarget.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const stopHold = (): void => clearTimeout(holdTimer.current);

  function onPointerDown(event: PointerEvent<HTMLElement>): void {
    if (event.button !== 0) return;
    const at = place(event);
    event.currentTarget.setPointerCapture(event.pointerId);
    touches.current.set(event.pointerId, { start: at, at });
    stopHold();
    if (touches.current.size === 2) {
      doing.current = 'pinching';
      setAim(null);
      return;
    }
    if (touches.current.size > 2) return;
    doing.current = 'deciding';
    if (drawing) {
      setAim(at);
      return;
    }
    holdTimer.current = setTimeout(() => {
      doing.current = 'aiming';
      setAim(at);
    }, HOLD);
  }

  function onPointerMove(event: PointerEvent<HTMLElement>): void {
    const touch = touches.current.get(event.pointerId);
    if (!touch) return;
    const at = place(event);
    if (doing.current === 'pinching') pinch(event.pointerId, touch, at);
    else moveOne(touch, at);
    touches.current.set(event.pointerId, { start: touch.start, at });
  }

  function pinch(id: number, touch: Touch, at: Point): void {
    const other = [...touches.current].find(([key]) => key !== id)?.[1];
    if (!other) return;
    const span = (a: Point): number => Math.hypot(a[0] - other.at[0], a[1] - other.at[1]);
    const center: Point = [(at[0] + other.at[0]) / 2, (at[1] + other.at[1]) / 2];
    const factor = span(at) / Math.max(1, span(touch.at));
    handlers.onPinch(center, factor, (at[0] - touch.at[0]) / 2, (at[1] - touch.at[1]) / 2);
  }

  function moveOne(touch: Touch, at: Point): void {
    const moved = Math.hypot(at[0] - touch.start[0], at[1] - touch.start[1]) > SLOP;
    if (doing.current === 'deciding' && moved) {
      stopHold();
      doing.current = drawing ? 'drawing' : 'panning';
      if (drawing) handlers.onDraw(touch.start);
    }
    if (doing.current === 'panning') handlers.onPan(at[0] - touch.at[0], at[1] - touch.at[1]);
    if (doing.current === 'aiming') setAim(at);
    if (doing.current === 'drawing') {
      setAim(at);
      handlers.onDraw(at);
    }
  }

  function onPointerUp(event: PointerEvent<HTMLElement>): void {
    const touch = touches.current.get(event.pointerId);
    touches.current.delete(event.pointerId);
    stopHold();
    if (!touch || touches.current.size > 0) return;
    const was = doing.current;
    doing.current = 'nothing';
    setAim(null);
    if (was === 'deciding' && drawing) handlers.onDraw(touch.at);
    else if (was === 'deciding' || was === 'aiming') handlers.onTap(touch.at);
  }

  function onPointerCancel(event: PointerEvent<HTMLElement>): void {
    touches.current.delete(event.pointerId);
    stopHold();
    doing.current = 'nothing';
    setAim(null);
  }

  return { aim, bind: { onPointerDown, onPointerMove, onPointerUp, onPointerCancel } };
}
