import type { PhaseMap, Reading } from '../flow';
import { sortReadings } from './active';
import { type Belief, judgeReading } from './agreement';
import { claimsOf } from './claim';
import { type End, endOf } from './end';
import { modelsFor } from './models';
import { beyondNormal } from './normal-range';
import { bandOptions, type MeterOptions } from './options';
import type { PhasorDiagram } from './phasor-diagram';

/** What was read along one edge of a diagram. */
export interface EdgeReading {
  /** Index into the diagram's edges. */
  readonly edge: number;
  /** Lowest and highest value read, volts, without sign. */
  readonly low: number;
  readonly high: number;
  readonly count: number;
  /** At least one of them contradicts what is claimed. */
  readonly contradicts: boolean;
  /** All agree, at least one of them only within the wide range of its rule. */
  readonly beyondNormal: boolean;
}

/**
 * The counted voltage readings laid on the edges of a diagram, by what the map says the leads stood on. Readings
 * between places of one potential, or of another system, have no edge and are left out.
 */
export function readOnDiagram(
  diagram: PhasorDiagram,
  map: PhaseMap,
  readings: readonly Reading[],
  options: MeterOptions = {},
): EdgeReading[] {
  const claims = new Map(claimsOf(map).map((c) => [c.conductor, c]));
  const belief: Belief = { claims, models: modelsFor(map, options.posted), band: bandOptions(options) };
  const pointOf = (end: End | null): number =>
    end && (end.system === null || end.system === diagram.system)
      ? diagram.points.findIndex((p) => p.roles.includes(end.role))
      : -1;
  const found = new Map<number, EdgeReading>();
  for (const reading of sortReadings(map, readings, options).counted) {
    if (typeof reading.value !== 'number' || reading.function === 'continuity') continue;
    if (reading.condition !== undefined) continue;
    const ends = [pointOf(endOf(reading.from, claims)), pointOf(endOf(reading.to, claims))];
    const edge = diagram.edges.findIndex((e) => ends.includes(e.from) && ends.includes(e.to));
    if (edge < 0) continue;
    const value = Math.abs(reading.value);
    const known = found.get(edge);
    const against = judgeReading(reading, belief).agreement === 'contradicts';
    const beyond = beyondNormal(reading, map, options) !== null;
    found.set(edge, {
      edge,
      low: Math.min(known?.low ?? value, value),
      high: Math.max(known?.high ?? value, value),
      count: (known?.count ?? 0) + 1,
      contradicts: (known?.contradicts ?? false) || against,
      beyondNormal: (known?.beyondNormal ?? false) || beyond,
    });
  }
  return [...found.values()];
}
