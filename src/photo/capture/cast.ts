type Rgb = readonly [r: number, g: number, b: number];

/** Angle between two colors of linear light seen as vectors, degrees: the usual measure of error of a light estimate. */
export function angleDeg(a: Rgb, b: Rgb): number {
  const dot = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const norm = Math.hypot(...a) * Math.hypot(...b);
  return norm > 0 ? (Math.acos(Math.min(1, Math.max(-1, dot / norm))) * 180) / Math.PI : 0;
}
