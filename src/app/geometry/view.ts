import type { Point } from '../../flow';

/** How the picture lies in its window: window = picture x scale + offset. */
export interface View {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Closest look: one working pixel becomes this many window pixels. */
export const MAX_SCALE = 12;

/** The whole picture, centered. */
export function wholeView(picture: Size, window: Size): View {
  const scale = Math.min(window.width / picture.width, window.height / picture.height);
  return {
    scale,
    x: (window.width - picture.width * scale) / 2,
    y: (window.height - picture.height * scale) / 2,
  };
}

/** Zooms by `factor` about a point of the window, which stays where it is. */
export function zoomAt(view: View, at: Point, factor: number, picture: Size, window: Size): View {
  const least = wholeView(picture, window).scale;
  const scale = Math.min(MAX_SCALE, Math.max(least, view.scale * factor));
  const grown = scale / view.scale;
  return keepInside(
    { scale, x: at[0] - (at[0] - view.x) * grown, y: at[1] - (at[1] - view.y) * grown },
    picture,
    window,
  );
}

export const pan = (view: View, dx: number, dy: number, picture: Size, window: Size): View =>
  keepInside({ ...view, x: view.x + dx, y: view.y + dy }, picture, window);

/** No empty band beside the picture while it is larger than the window; centered while it is smaller. */
export function keepInside(view: View, picture: Size, window: Size): View {
  const clamp = (offset: number, drawn: number, room: number): number =>
    drawn <= room ? (room - drawn) / 2 : Math.min(0, Math.max(room - drawn, offset));
  return {
    scale: view.scale,
    x: clamp(view.x, picture.width * view.scale, window.width),
    y: clamp(view.y, picture.height * view.scale, window.height),
  };
}

export const toPicture = (view: View, at: Point): Point => [
  (at[0] - view.x) / view.scale,
  (at[1] - view.y) / view.scale,
];

export const toWindow = (view: View, at: Point): Point => [at[0] * view.scale + view.x, at[1] * view.scale + view.y];

/** Moves a point of the picture to the middle of the window at the given scale or closer. */
export function lookAt(view: View, at: Point, scale: number, picture: Size, window: Size): View {
  const s = Math.min(MAX_SCALE, Math.max(view.scale, scale));
  return keepInside({ scale: s, x: window.width / 2 - at[0] * s, y: window.height / 2 - at[1] * s }, picture, window);
}
