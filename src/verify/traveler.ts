import type { Reading } from '../flow';
import type { Belief } from './agreement';
import { endOf, expectedVolts } from './end';
import { conductorsOf } from './test-point';

type Level = 'full' | 'none' | 'neither';

export interface TravelerVerdict {
  readonly agree: readonly string[];
  readonly contradict: readonly string[];
}

/** Is the value the host's line voltage, about nothing, or neither? */
function levelOf(reading: Reading, belief: Belief): Level | null {
  const [a, b] = [endOf(reading.from, belief.claims), endOf(reading.to, belief.claims)];
  if (!a || !b || typeof reading.value !== 'number') return null;
  const full = expectedVolts(a, b, undefined, belief.models, belief.band);
  const none = expectedVolts(
    { system: full?.system ?? null, role: 'ground' },
    { system: null, role: 'ground' },
    undefined,
    belief.models,
    belief.band,
  );
  if (!full || !none) return null;
  if (reading.value >= full.low && reading.value <= full.high) return 'full';
  return reading.value >= none.low && reading.value <= none.high ? 'none' : 'neither';
}

/**
 * Travelers have no voltage of their own: exactly one of a pair is live, the positions of the feeding switch
 * exchange them, and the far switch changes neither. Which of two is called the first is of no consequence.
 */
export function judgeTraveler(
  conductor: string,
  partner: string | null,
  readings: readonly Reading[],
  belief: Belief,
): TravelerVerdict {
  const own = readings.filter(
    (r) => r.condition?.startsWith('position') && conductorsOf(r).some((id) => id === conductor || id === partner),
  );
  const seen = own.flatMap((reading) => {
    const level = levelOf(reading, belief);
    const mine = conductorsOf(reading).includes(conductor);
    return level ? [{ reading, level, mine }] : [];
  });
  // Told as if the traveler itself were live in position 1: everything else must follow from that.
  const liveHere = (reading: Reading, mine: boolean): boolean => (reading.condition !== 'position 2') === mine;
  const first = seen.find((s) => s.level !== 'neither');
  if (!first) return { agree: [], contradict: seen.map((s) => s.reading.id) };
  const phase = (first.level === 'full') === liveHere(first.reading, first.mine);
  const right = seen.filter(
    (s) => s.level !== 'neither' && (s.level === 'full') === (liveHere(s.reading, s.mine) === phase),
  );
  const wrong = seen.filter((s) => !right.includes(s));
  // One odd reading among them does not say which: all are in dispute.
  return wrong.length === 0
    ? { agree: right.map((s) => s.reading.id), contradict: [] }
    : { agree: [], contradict: seen.map((s) => s.reading.id) };
}
