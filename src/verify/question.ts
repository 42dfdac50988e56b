import { type Message, message, type PhaseMap, type Reading } from '../flow';
import { claimsOf } from './claim';
import { isShutdown } from './effort';
import { endOf } from './end';
import { modelsFor } from './models';
import type { MeterOptions } from './options';
import { isDirect, plausibleLimit } from './plausible';
import { pointKey } from './test-point';

/** Above this no system in the tool has a voltage, volts. */
const NEVER_VOLTS = 2000;

type Kind = 'order' | 'tone' | 'quantity';

const answerKind = (value: Reading['value']): Kind =>
  value === 'ABC' || value === 'CBA' ? 'order' : value === 'tone' || value === 'no tone' ? 'tone' : 'quantity';

const functionKind = (dial: Reading['function']): Kind =>
  dial === 'phase rotation' ? 'order' : dial === 'tone' ? 'tone' : 'quantity';

function impossible(reading: Reading): Message | null {
  const { value } = reading;
  if (answerKind(value) !== functionKind(reading.function)) return message('verify.question.kind');
  if (reading.function === 'phase rotation' && !reading.third) return message('verify.question.third-lead');
  const leads = [reading.from, reading.to, ...(reading.third ? [reading.third] : [])].map(pointKey);
  if (new Set(leads).size < leads.length) return message('verify.question.same-place');
  if (typeof value !== 'number')
    return value === 'OL' && reading.function !== 'continuity' ? message('verify.question.overload') : null;
  if (!Number.isFinite(value)) return message('verify.question.not-a-number');
  if (value < 0 && !isDirect(reading)) return message('verify.question.negative', { value });
  if (reading.function !== 'continuity' && Math.abs(value) > NEVER_VOLTS)
    return message('verify.question.too-high', { value });
  return null;
}

/**
 * Asks back about a value that cannot be (a negative AC voltage, the same place twice) or hardly can be with what
 * is known of the site. Null: nothing to ask. A questioned reading counts as evidence only once `confirmed`.
 */
export function question(reading: Reading, map: PhaseMap, options: MeterOptions = {}): Message | null {
  const never = impossible(reading);
  if (never) return never;
  const { value } = reading;
  if (reading.function === 'tone' && !isShutdown(reading)) return message('verify.question.tone-live');
  if (typeof value !== 'number') return null;
  const models = modelsFor(map, options.posted);
  const claims = new Map(claimsOf(map).map((c) => [c.conductor, c]));
  if (reading.function === 'continuity') {
    return isShutdown(reading) ? null : message('verify.question.continuity-live');
  }
  const ends = [reading.from, reading.to].map((p) => endOf(p, claims));
  const systems = ends.flatMap((e) => (e?.system ? [e.system] : []));
  const currents = new Set(systems.flatMap((id) => models(id)?.current ?? []));
  if (isDirect(reading) && currents.size === 1 && currents.has('AC')) return message('verify.question.direct-on-ac');
  if (!isDirect(reading) && currents.size === 1 && currents.has('DC')) return message('verify.question.ac-on-direct');
  const limit = plausibleLimit(map, models);
  if (limit > 0 && Math.abs(value) > limit)
    return message('verify.question.above-site', { value, limit: Math.round(limit) });
  return null;
}
