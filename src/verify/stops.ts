import { type Message, message, type PhaseMap, type SystemId } from '../flow';
import { SYSTEMS } from '../identify';
import { COARSEST, tooCoarse } from './meter';
import { modelsFor } from './models';
import type { MeterOptions, Place } from './options';

/** Above this the tool is not for the job: 600 V is where low-voltage meters, CAT tables and NEC part limits end. */
const MOST_VOLTS = 600;
/** Systems less probable than this are not planned for. */
const PRESENT = 0.1;
/** Red and black alone suggest DC a little in any panel; only a likely DC system stops for its unknown volts. */
const PRESENT_DC = 0.3;

/** Least category by place (IEC 61010-2-030, read): outlets II, fixed installation III, origin of supply IV. */
const CATEGORY: Readonly<Record<Place, 'II' | 'III' | 'IV'>> = { outlet: 'II', panel: 'III', service: 'IV' };
const RANK = { II: 2, III: 3, IV: 4 } as const;

function meterStops(options: MeterOptions, most: number): Message[] {
  const { meter } = options;
  if (!meter || meter.category === null) return [message('verify.stop.no-rated-meter')];
  const place = options.place ?? 'panel';
  const needed = CATEGORY[place];
  const found: Message[] = [];
  if (RANK[meter.category] < RANK[needed])
    found.push(message('verify.stop.category', { category: meter.category, needed, place: `verify.place.${place}` }));
  if (meter.ratedVolts < most)
    found.push(message('verify.stop.rated-volts', { rated: meter.ratedVolts, most: Math.round(most) }));
  if (tooCoarse(meter))
    found.push(message('verify.stop.accuracy', { percent: COARSEST.percent, volts: COARSEST.volts }));
  return found;
}

/**
 * Reasons not to measure but to stop and call someone. Never empty merely because nothing is known: without a
 * meter of a stated category there is always one.
 */
export function stops(map: PhaseMap, options: MeterOptions = {}): Message[] {
  const models = modelsFor(map, options.posted);
  const present = map.systems.filter((s) => s.probability >= PRESENT);
  const known = present.flatMap((s) => models(s.system) ?? []);
  const most = Math.max(0, ...known.map((m) => m.maxVolts), ...Object.values(options.posted ?? {}));
  const found: Message[] = [];
  if (options.wetOrDamaged) found.push(message('verify.stop.wet-or-damaged'));
  if (most > MOST_VOLTS + 1) found.push(message('verify.stop.over-600', { volts: Math.round(most) }));
  if (present.length === 0) found.push(message('verify.stop.unknown-system'));
  for (const { system, probability } of present) {
    const data = SYSTEMS[system];
    const posted = options.site?.systems.includes(system) === true;
    if (!data) found.push(message('verify.stop.unknown-system'));
    else if (data.kind === 'isolated' && !posted)
      found.push(message('verify.stop.isolated', { system: `identify.system.${system}` }));
    else if (data.kind === 'dc' && !models(system) && (posted || probability >= PRESENT_DC))
      found.push(message('verify.stop.dc-volts', { system: `identify.system.${system}` }));
  }
  return [...found, ...meterStops(options, most)];
}

/** Likely systems whose voltage only a nameplate tells (DC, some isolated power), likeliest first. */
export const postable = (map: PhaseMap): SystemId[] =>
  map.systems
    .filter((s) => s.probability >= PRESENT && ['dc', 'isolated'].includes(SYSTEMS[s.system]?.kind ?? ''))
    .sort((a, b) => b.probability - a.probability)
    .map((s) => s.system);

/** What does not stop anyone but has to be known beforehand. */
export function notices(map: PhaseMap, options: MeterOptions = {}): Message[] {
  const models = modelsFor(map, options.posted);
  const present = map.systems.filter((s) => s.probability >= PRESENT).flatMap((s) => models(s.system) ?? []);
  const found: Message[] = [];
  if (options.meter && !options.meter.lowImpedance) found.push(message('verify.notice.no-low-impedance'));
  if (present.filter((m) => m.ground === 'bonded').length > 1) found.push(message('verify.notice.two-systems'));
  if (present.some((m) => m.ground === 'floating' && m.current === 'AC')) found.push(message('verify.notice.floating'));
  return found;
}
