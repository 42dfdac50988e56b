import type { MeterPlan, NamedConductor, PhaseMap, Reading, SiteKnowledge, Verdict } from '../../flow';
import { identify } from '../../identify';
import { judge, type MeterOptions, planChecks } from '../../verify';

export interface ThinkRequest {
  /** With the user's words about them. */
  readonly conductors: readonly NamedConductor[];
  readonly site: SiteKnowledge;
  readonly readings: readonly Reading[];
  readonly options: MeterOptions;
  /** The map by color where it is already known, because only readings or the meter changed. */
  readonly map: PhaseMap | null;
}

/** What follows from a photo's conductors, the site and the readings. */
export interface Conclusion {
  /** The phase map by color alone. */
  readonly map: PhaseMap;
  readonly verdict: Verdict;
}

export function conclude({ conductors, site, readings, options, map }: ThinkRequest): Conclusion {
  const byColor = map ?? identify(conductors, site);
  return { map: byColor, verdict: judge(byColor, readings, options) };
}

/** The checks still to make; much slower than concluding where many conductors are in play. */
export const plan = ({ conductors, site, readings, options, map }: ThinkRequest): MeterPlan =>
  planChecks(map ?? identify(conductors, site), readings, options);
