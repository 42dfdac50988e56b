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
export interface Thoughts {
  /** The phase map by color alone. */
  readonly map: PhaseMap;
  readonly verdict: Verdict;
  readonly plan: MeterPlan;
}

export function think({ conductors, site, readings, options, map }: ThinkRequest): Thoughts {
  const byColor = map ?? identify(conductors, site);
  return {
    map: byColor,
    verdict: judge(byColor, readings, options),
    plan: planChecks(byColor, readings, options),
  };
}
