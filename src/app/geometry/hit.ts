import { type NamedConductor, nearestOnPolyline, type Point } from '../../flow';

/**
 * The conductor under a fingertip at `at` (picture pixels), or null. Half the width always counts; `reach` picture
 * pixels more are allowed for a thumb, but never so far that tapping beside a conductor could not trace another.
 */
export function conductorAt(conductors: readonly NamedConductor[], at: Point, reach: number): NamedConductor | null {
  let best: { readonly conductor: NamedConductor; readonly score: number } | null = null;
  for (const conductor of conductors) {
    const near = nearestOnPolyline(conductor.centerline, at);
    if (!near) continue;
    const half = conductor.widthPx / 2;
    if (near.distance > half + Math.min(reach, half)) continue;
    const score = near.distance / half;
    if (!best || score < best.score) best = { conductor, score };
  }
  return best?.conductor ?? null;
}
