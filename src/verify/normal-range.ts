import { type Message, message, type PhaseMap, type Reading } from '../flow';
import { type Belief, expectation, fits } from './agreement';
import { claimsOf } from './claim';
import { modelsFor } from './models';
import { bandOptions, type MeterOptions } from './options';

/**
 * A reading that agrees with the map, though only within the wide range of its rule (ANSI C84.1 range B): such volts
 * are meant to be seldom and brief, so they are worth a word. Service limits where the job is at the service, else
 * utilization limits; the meter's error is given on top. Null: inside the normal range, outside both, a rule with one
 * range (IEC 60038), or nothing expected.
 */
export function beyondNormal(reading: Reading, map: PhaseMap, options: MeterOptions = {}): Message | null {
  if (typeof reading.value !== 'number' || reading.function === 'continuity') return null;
  const claims = new Map(claimsOf(map).map((c) => [c.conductor, c]));
  const wide = bandOptions(options);
  const belief: Belief = { claims, models: modelsFor(map, options.posted), band: wide };
  const widest = expectation(reading, belief);
  const place = options.place === 'service' ? 'service' : wide.place;
  const normal = expectation(reading, { ...belief, band: { ...wide, range: 'A', place } });
  if (!widest || !normal || !fits(reading.value, widest) || fits(reading.value, normal)) return null;
  const values = {
    value: reading.value,
    low: Math.round(normal.low),
    high: Math.round(normal.high),
    ...normal.band.values,
  };
  return message('verify.beyond-normal', values);
}
