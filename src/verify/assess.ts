import type { ConductorVerdict, PhaseMap, Reading } from '../flow';
import { type SortedReadings, sortReadings } from './active';
import type { Belief } from './agreement';
import { type Claim, claimsOf } from './claim';
import { type Component, infer } from './infer';
import { weighingMeter } from './meter';
import { modelsFor } from './models';
import { bandOptions, type MeterOptions } from './options';
import { type CheckNeed, requiredChecks } from './required';
import { standingOf } from './standing';
import { updatedMap } from './updated-map';

/** From this probability on, the readings' word replaces the photo's as the claim to be proved. */
const REPLACES = 0.9;

/** Everything the verdict and the plan are made from. */
export interface Assessment {
  /** What the photo claimed. */
  readonly original: ReadonlyMap<string, Claim>;
  readonly belief: Belief;
  readonly map: PhaseMap;
  readonly sorted: SortedReadings;
  readonly components: readonly Component[];
  readonly needs: readonly CheckNeed[];
  readonly conductors: readonly ConductorVerdict[];
}

const byConductor = (claims: readonly Claim[]): Map<string, Claim> => new Map(claims.map((c) => [c.conductor, c]));

function claimsAfter(original: ReadonlyMap<string, Claim>, after: PhaseMap): Map<string, Claim> {
  const now = byConductor(claimsOf(after));
  return new Map(
    [...new Set([...original.keys(), ...now.keys()])].flatMap((id) => {
      const read = now.get(id);
      const claim = read && read.probability >= REPLACES ? read : (original.get(id) ?? read);
      return claim ? [[id, claim] as const] : [];
    }),
  );
}

/** The last few results of a map: a verdict and the next plan ask for the same one, a new reading for the one before. */
const RECENT = new WeakMap<PhaseMap, { readonly key: string; readonly result: Assessment }[]>();
const KEPT = 3;

/** Weighs all counted readings against the map. Pure: an edited reading, trace or map simply gives another result. */
export function assess(map: PhaseMap, readings: readonly Reading[], options: MeterOptions): Assessment {
  const key = JSON.stringify([readings, options]);
  const recent = RECENT.get(map) ?? [];
  const known = recent.find((r) => r.key === key);
  if (known) return known.result;
  const result = weigh(map, readings, options);
  RECENT.set(map, [{ key, result }, ...recent].slice(0, KEPT));
  return result;
}

function weigh(map: PhaseMap, readings: readonly Reading[], options: MeterOptions): Assessment {
  const models = modelsFor(map, options.posted);
  const sorted = sortReadings(map, readings, options);
  // A tone says nothing of voltages or roles: it only helps to find the far end.
  const weighed = sorted.counted.filter((r) => r.function !== 'tone');
  const components = infer(map, weighed, models, weighingMeter(options.meter), options.posted);
  const original = byConductor(claimsOf(map));
  const after = updatedMap(map, components, original, models);
  const claims = claimsAfter(original, after);
  const belief: Belief = { claims, models, band: bandOptions(options) };
  const groups = options.site?.groups ?? [];
  const needs = requiredChecks({ claims: [...claims.values()], groups, models, motors: options.motors ?? false });
  const input = { belief, needs, readings: sorted.counted, components, original };
  const conductors = map.assignments.map(({ conductor }): ConductorVerdict => {
    const claim = claims.get(conductor);
    return claim
      ? standingOf(claim, input)
      : { conductor, standing: 'by color', missing: [], agree: [], contradict: [] };
  });
  return { original, belief, map: after, sorted, components, needs, conductors };
}
