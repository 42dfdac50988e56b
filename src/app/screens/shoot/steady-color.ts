import { COLOR_NAMES } from '../../../flow';
import type { PassingColor } from '../../../inspect';

/** Frames that speak together: about a second of them. */
const LATEST = 5;

/**
 * What the latest frames say of a color together: names are averaged, and none is left out that one of them still held
 * possible, so that words don't flicker and a lucky frame is not surer than its neighbors. A frame without a conductor
 * (null) takes the oldest away; when none is left there is nothing to be shown. `latest` is not changed.
 */
export function steadyColor(
  latest: readonly PassingColor[],
  next: PassingColor | null,
): { readonly latest: readonly PassingColor[]; readonly shown: PassingColor | null } {
  const kept = next ? [...latest, next].slice(-LATEST) : latest.slice(1);
  if (kept.length === 0) return { latest: kept, shown: null };
  const mean = (of: (one: PassingColor) => number): number => kept.reduce((sum, one) => sum + of(one), 0) / kept.length;
  const names = COLOR_NAMES.map((name) => ({
    name,
    probability: mean((one) => one.names.find((c) => c.name === name)?.probability ?? 0),
  }))
    .filter((c) => c.probability > 0)
    .sort((x, y) => y.probability - x.probability);
  return { latest: kept, shown: { names, bare: mean((one) => one.bare) } };
}
