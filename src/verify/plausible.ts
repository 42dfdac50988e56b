import type { PhaseMap, Reading } from '../flow';
import type { Models } from './models';

export const isDirect = (reading: Pick<Reading, 'function'>): boolean => reading.function === 'DC volts';

/** Allowance over the highest voltage of the site before a reading is questioned: two lines of unlike systems in series. */
const OVER_SITE = 1.2;

/** Highest voltage that the systems thought to be present could show, volts; 0 when none is known. */
export function plausibleLimit(map: PhaseMap, models: Models): number {
  const present = map.systems.filter((s) => s.probability > 0.02).flatMap((s) => models(s.system) ?? []);
  return OVER_SITE * Math.max(0, ...present.map((m) => m.maxVolts));
}
