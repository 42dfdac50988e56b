import type { MeterPlan, NamedConductor, PhaseMap, Reading, SiteKnowledge, Verdict } from '../../flow';
import { identify } from '../../identify';
import { judge, type MeterOptions, planChecks, planFirst } from '../../verify';

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

/**
 * What crosses into a worker arrives as a copy each time. The map and the readings of the request before are put in
 * the place of equal ones, so that what was worked out about them is found again.
 */
export function sameAgain(): (request: ThinkRequest) => ThinkRequest {
  let map: { readonly text: string; readonly value: PhaseMap } | null = null;
  let readings = new Map<string, Reading>();
  return (request) => {
    const text = request.map ? JSON.stringify(request.map) : null;
    if (text !== null && text !== map?.text) map = { text, value: request.map as PhaseMap };
    const kept = request.readings
      .map((r) => [JSON.stringify(r), r] as const)
      .map(([key, r]) => [key, readings.get(key) ?? r] as const);
    readings = new Map(kept);
    return { ...request, map: text === null ? null : (map?.value ?? request.map), readings: kept.map(([, r]) => r) };
  };
}

export function conclude({ conductors, site, readings, options, map }: ThinkRequest): Conclusion {
  const byColor = map ?? identify(conductors, site);
  return { map: byColor, verdict: judge(byColor, readings, options) };
}

const mapOf = ({ conductors, site, map }: ThinkRequest): PhaseMap => map ?? identify(conductors, site);

/** The checks still to make in a first good order: at once, where concluding has been done. */
export const firstPlan = (request: ThinkRequest): MeterPlan =>
  planFirst(mapOf(request), request.readings, request.options);

/** The checks still to make in the order of least expected work. */
export const plan = (request: ThinkRequest): MeterPlan => planChecks(mapOf(request), request.readings, request.options);
