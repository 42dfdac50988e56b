import { type ExpectedReading, type Message, message, type Role, type SystemId } from '../flow';
import { BAND_RULES, type BandRuleId } from './band-rule';
import { type Meter, meterError, UNKNOWN_METER } from './meter';
import { modelOf } from './models';
import { centroid, type Phasor, volts, ZERO } from './phasor';
import type { SystemModel } from './system-model';

export type BandPlace = 'service' | 'utilization';

/** `A`: normal range; `B`: the widest range of the rule (ANSI range B; the same as A for rules with one range). */
export type BandRange = 'A' | 'B';

export interface BandOptions {
  readonly place: BandPlace;
  readonly range: BandRange;
  readonly meter: Meter;
}

/** Widest normal window: range B at the user's end, and the unknown meter's error on top. */
export const WIDEST: BandOptions = { place: 'utilization', range: 'B', meter: UNKNOWN_METER };

/**
 * Share of the line voltage that two points of one potential may differ by because of load current: 5 %, the total
 * drop that the NEC's informational notes speak of (210.19, from memory). On 120 V that is 6 V.
 */
export const DROP_SHARE = 0.05;

/**
 * Leakage puts ground anywhere between the lines of an isolated system; these shares of the line to line voltage
 * are what is called "near half" here. Common practice, no source.
 */
const FLOATING_SHARE: readonly [number, number] = [0.2, 0.75];

/** Where ground stands among the points of a system; for a floating one, where equal leakage would put it. */
export const groundOf = (model: SystemModel): Phasor =>
  model.ground === 'bonded'
    ? ZERO
    : centroid(model.points.filter((p) => p.role !== 'equipment grounding conductor').map((p) => p.at));

const isEarth = (end: Role | 'ground'): boolean => end === 'ground' || end === 'equipment grounding conductor';

/** Voltage of one end, or null where the system has no such role. */
export function phasorOf(model: SystemModel, end: Role | 'ground'): Phasor | null {
  if (isEarth(end)) return groundOf(model);
  return model.points.find((p) => p.role === end)?.at ?? null;
}

/** Smallest voltage between a live point and the middle or ground; what "zero" is compared with. */
const base = (model: SystemModel): number => {
  const ground = groundOf(model);
  const live = model.points.map((p) => volts(p.at, ground)).filter((v) => v > 1);
  return Math.min(...live, model.maxVolts);
};

/** Code of a band to a ground that nothing holds in place. */
export const FLOATING = 'verify.band.floating';

/** Rule, range where it has two, and place of a band. */
function bandName(rule: BandRuleId, { range, place }: BandOptions): Message {
  const values = { rule: `verify.band.${rule}`, place: `verify.band.${place}` };
  return BAND_RULES[rule].normal === BAND_RULES[rule].widest
    ? message('verify.band.one-range', values)
    : message('verify.band.two-ranges', { ...values, range });
}

function band(
  model: SystemModel,
  nominal: number,
  floating: boolean,
  options: BandOptions,
): [low: number, high: number, from: Message] {
  const rule = BAND_RULES[model.band];
  const { meter } = options;
  if (floating) {
    const side = model.maxVolts;
    const low = side * FLOATING_SHARE[0];
    const high = side * FLOATING_SHARE[1] * rule.widest.utilization[1];
    return [low - meterError(meter, low), high + meterError(meter, high), message(FLOATING)];
  }
  if (Math.abs(nominal) < 1e-6) {
    const high = base(model) * DROP_SHARE;
    return [0, high + meterError(meter, high), message('verify.band.load-drop', { percent: DROP_SHARE * 100 })];
  }
  const [least, most] = (options.range === 'A' ? rule.normal : rule.widest)[options.place];
  const ends = [nominal * least, nominal * most].sort((a, b) => a - b) as [number, number];
  return [ends[0] - meterError(meter, ends[0]), ends[1] + meterError(meter, ends[1]), bandName(model.band, options)];
}

/** As `expectedVoltage`, for a model already at hand. */
export function expectedFrom(
  model: SystemModel,
  a: Role | 'ground',
  b: Role | 'ground',
  options: BandOptions = WIDEST,
): ExpectedReading | null {
  const from = phasorOf(model, a);
  const to = phasorOf(model, b);
  if (!from || !to) return null;
  const nominal = model.current === 'DC' ? from.re - to.re : volts(from, to);
  const floating = model.ground === 'floating' && isEarth(a) !== isEarth(b);
  const [low, high, source] = band(model, nominal, floating && model.current === 'AC', options);
  return { system: model.id, between: [a, b], nominal, low, high, band: source };
}

/**
 * What a meter between two roles of a system, or a role and ground, should show: nominal volts from the phasors and
 * the band in which a reading agrees, widened by the meter's error. DC keeps its sign, first point against second.
 * Null where the system is unknown, has no such role, or its volts were not posted (DC).
 */
export function expectedVoltage(
  system: SystemId,
  a: Role | 'ground',
  b: Role | 'ground',
  options: BandOptions = WIDEST,
): ExpectedReading | null {
  const model = modelOf(system);
  return model ? expectedFrom(model, a, b, options) : null;
}
