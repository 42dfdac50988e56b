import { type CheckCondition, type ExpectedReading, message, type Role, type SystemId, type TestPoint } from '../flow';
import { SYSTEMS } from '../identify';
import type { Claim } from './claim';
import { type BandOptions, expectedFrom, groundOf, phasorOf } from './expected-voltage';
import { meterError } from './meter';
import type { Models } from './models';
import { volts } from './phasor';
import type { SystemModel } from './system-model';

/** What a lead touches, if the claims are right. `system` is null for ground, which belongs to every system. */
export interface End {
  readonly system: SystemId | null;
  readonly role: Role | 'ground';
}

/** Null for a conductor of which nothing is claimed. */
export function endOf(point: TestPoint, claims: ReadonlyMap<string, Claim>): End | null {
  if (point.kind === 'ground') return { system: null, role: 'ground' };
  if (point.kind === 'neutral bar') return { system: null, role: 'grounded conductor' };
  if (point.kind === 'pole') return { system: point.system, role: point.role };
  const claim = claims.get(point.conductor);
  return claim ? { system: claim.system, role: claim.role } : null;
}

const EARTH_LIKE: readonly (Role | 'ground')[] = ['ground', 'equipment grounding conductor', 'grounded conductor'];
const earthLike = (end: End): boolean => EARTH_LIKE.includes(end.role);
const rides = (end: End): boolean => end.system !== null && SYSTEMS[end.system]?.kind === 'auxiliary';

/** The system in whose terms both ends can be put: neutrals and grounds of another bonded system count as bonded. */
function commonModel(a: End, b: End, models: Models): SystemModel | null {
  if (a.system !== null && a.system === b.system) return models(a.system);
  const ids = rides(a)
    ? [a.system, b.system]
    : rides(b)
      ? [b.system, a.system]
      : earthLike(a)
        ? [b.system, a.system]
        : [a.system, b.system];
  const first = ids.find((id) => id !== null);
  const model = first ? models(first) : null;
  if (!model) return null;
  const foreign = a.system === model.id ? b : a;
  return foreign.system === null || foreign.system === model.id || earthLike(foreign) ? model : null;
}

/** In a system without a grounded conductor, the bonded bar is ground. */
const named = (end: End, model: SystemModel): Role | 'ground' =>
  end.role === 'grounded conductor' && !model.points.some((p) => p.role === 'grounded conductor') ? 'ground' : end.role;

/** Code of a band between two systems. */
export const TWO_SYSTEMS = 'verify.band.two-systems';

/** Two bonded systems of different transformers: their angle to one another is unknown, so only limits are. */
function acrossSystems(a: End, b: End, models: Models, options: BandOptions): ExpectedReading | null {
  if (a.system === null || b.system === null || rides(a) || rides(b)) return null;
  const [first, second] = [models(a.system), models(b.system)];
  if (!first || !second || first.ground === 'floating' || second.ground === 'floating') return null;
  if (first.current === 'DC' || second.current === 'DC') return null;
  const [from, to] = [phasorOf(first, a.role), phasorOf(second, b.role)];
  if (!from || !to) return null;
  const [x, y] = [volts(from, groundOf(first)), volts(to, groundOf(second))];
  const [low, high] = [Math.abs(x - y) * 0.9, (x + y) * 1.1];
  return {
    system: first.id,
    between: [a.role, b.role],
    nominal: Math.hypot(x, y),
    low: low - meterError(options.meter, low),
    high: high + meterError(options.meter, high),
    band: message(TWO_SYSTEMS),
  };
}

const OFF_CONDITIONS: readonly (CheckCondition | undefined)[] = ['switch off'];

/** Expected volts between two ends under a condition; null where nothing can be expected. */
export function expectedVolts(
  a: End,
  b: End,
  condition: CheckCondition | undefined,
  models: Models,
  options: BandOptions,
): ExpectedReading | null {
  const model = commonModel(a, b, models);
  if (!model) return acrossSystems(a, b, models, options);
  const off = OFF_CONDITIONS.includes(condition) && (a.role === 'switch leg' || b.role === 'switch leg');
  if (off) {
    const zero = expectedFrom(model, 'ground', 'ground', options);
    return zero ? { ...zero, between: [a.role, b.role] } : null;
  }
  return expectedFrom(model, named(a, model), named(b, model), options);
}

/** Largest resistance that counts as bonded, ohms. Common practice, no source. */
export const BONDED_OHMS = 1;
/** Smallest resistance that counts as no connection, ohms; loads between line and neutral read far less. Common practice. */
export const OPEN_OHMS = 100_000;
/** Cap of the open band, ohms: what an open circuit is written as when a number is needed. */
export const OPEN_CAP_OHMS = 1e9;

/**
 * Expected continuity from a lifted conductor to ground with the supply proven off: only an equipment grounding
 * conductor is bonded beyond the terminal it was lifted from; a grounded conductor must not be (NEC 250.24(A)(5),
 * from memory: no bond on the load side). Lifted at both ends,
 * none may be; with the far end bonded on purpose, every conductor reads closed.
 */
export function expectedOhms(a: End, b: End, condition: CheckCondition | undefined): ExpectedReading | null {
  const [end, other] = a.role === 'ground' ? [b, a] : [a, b];
  if (other.role !== 'ground' || end.system === null) return null;
  const free = condition === 'supply off, both ends lifted';
  const closed = condition === 'supply off, far end bonded' || (!free && end.role === 'equipment grounding conductor');
  const ends: readonly [Role | 'ground', Role | 'ground'] = [end.role, 'ground'];
  return closed
    ? {
        system: end.system,
        between: ends,
        nominal: 0,
        low: 0,
        high: BONDED_OHMS,
        band: message('verify.band.bonded'),
      }
    : {
        system: end.system,
        between: ends,
        nominal: OPEN_CAP_OHMS,
        low: OPEN_OHMS,
        high: OPEN_CAP_OHMS,
        band: message('verify.band.open'),
        open: true,
      };
}
