/** Longest side of the working image in pixels. Photos at or below it are not resized. */
export const WORKING_SIDE = 1600;

export interface WorkingSize {
  readonly width: number;
  readonly height: number;
  /** Working pixels per full-size pixel, 0 to 1, along the longest side. */
  readonly scale: number;
}

/** Size to decode to: never enlarged, aspect kept to the nearest pixel, no side below 1. */
export function workingSize(width: number, height: number, maxSide: number = WORKING_SIDE): WorkingSize {
  const longest = Math.max(width, height);
  if (longest <= maxSide) return { width, height, scale: 1 };
  const scale = maxSide / longest;
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)), scale };
}
