import type { Place } from './grab-frame';

/**
 * The place of a video's picture under a point of the window (CSS pixels); null beside it. The picture lies in the middle
 * of its element and fills it one way (`object-fit: contain`).
 */
export function placeAt(video: HTMLVideoElement, x: number, y: number): Place | null {
  const { left, top, width, height } = video.getBoundingClientRect();
  const { videoWidth, videoHeight } = video;
  if (videoWidth === 0 || videoHeight === 0) return null;
  const scale = Math.min(width / videoWidth, height / videoHeight);
  const place: Place = [
    0.5 + (x - left - width / 2) / (scale * videoWidth),
    0.5 + (y - top - height / 2) / (scale * videoHeight),
  ];
  return place.every((share) => share >= 0 && share <= 1) ? place : null;
}
