import type { Check, Reading, Role, TestPoint } from '../../../src/flow';
import { SYSTEMS } from '../../../src/identify';
import type { Chance } from './chance';
import type { Site, Wire } from './site';
import { type At, distance } from './supply';

/** Honest error of the simulated meter: 1.5 % of reading + 0.5 V, evenly spread; what the room is told of it. */
export const METER = {
  category: 'III',
  ratedVolts: 600,
  accuracyPercent: 1.5,
  accuracyVolts: 0.5,
  lowImpedance: true,
} as const;

const isLine = (role: Role): boolean => role !== 'grounded conductor' && role !== 'equipment grounding conductor';

function placeOf(point: TestPoint, site: Site): At | 'open' | null {
  if (point.kind === 'ground') return site.ground;
  if (point.kind === 'neutral bar') return site.supply.neutral ? [0, 0] : site.ground;
  if (point.kind === 'conductor') return site.wires.find((w) => w.id === point.conductor)?.at ?? null;
  // A pole asked for by the name of another system: the electrician takes the one in the same place.
  const asked = SYSTEMS[point.system]?.roles.filter(isLine) ?? [];
  const real = Object.keys(site.poles) as Role[];
  return site.poles[real[asked.indexOf(point.role)] as Role] ?? null;
}

const wireOf = (point: TestPoint, site: Site): Wire | undefined =>
  point.kind === 'conductor' ? site.wires.find((w) => w.id === point.conductor) : undefined;

const noisy = (volts: number, chance: Chance): number => {
  const error = chance.between(-1, 1) * ((METER.accuracyPercent / 100) * volts + METER.accuracyVolts);
  return Math.round(Math.max(0, volts + error) * 10) / 10;
};

/** What the honest electrician reads; null where the place does not exist on this site. */
export function measure(
  check: Pick<Check, 'from' | 'to' | 'function'>,
  site: Site,
  chance: Chance,
): Reading['value'] | null {
  if (check.function === 'continuity') {
    const wire = wireOf(check.from, site) ?? wireOf(check.to, site);
    return wire?.bonded ? Math.round(chance.between(0.1, 0.8) * 10) / 10 : 'OL';
  }
  const [a, b] = [placeOf(check.from, site), placeOf(check.to, site)];
  if (!a || !b) return null;
  if (a !== 'open' && b !== 'open') return noisy(distance(a, b), chance);
  if (check.function === 'AC volts, low impedance') return Math.round(chance.between(0, 0.6) * 10) / 10;
  const reach = Math.max(...Object.values(site.poles).map((p) => Math.hypot(...p)));
  return noisy(chance.next() < 0.5 ? chance.between(0, 3) : chance.between(0, 0.85 * reach), chance);
}

let serial = 0;
export const readingOf = (
  check: Pick<Check, 'from' | 'to' | 'third' | 'function' | 'condition'>,
  value: Reading['value'],
): Reading => {
  serial += 1;
  return {
    id: `s${serial}`,
    from: check.from,
    to: check.to,
    ...(check.third ? { third: check.third } : {}),
    ...(check.condition ? { condition: check.condition } : {}),
    function: check.function,
    value,
    at: '2026-01-05T10:00:00Z',
    by: 'simulated electrician',
    confirmed: true,
  };
};
