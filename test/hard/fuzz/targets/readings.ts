import { EMPTY_ENTRY, entered, type PadKey, press } from '../../../../src/app/screens/meter/entry';
import { CHECK_CONDITIONS, type PhaseMap, type Reading, ROLES, type TestPoint } from '../../../../src/flow';
import { judge } from '../../../../src/verify';
import { mapOf, WYE_208 } from '../../../verify/fixtures';
import { between, pick } from '../../random';
import { type Json, jsonOf, must, type Target } from '../target';

const FUNCTIONS = ['AC volts', 'AC volts, low impedance', 'DC volts', 'continuity', 'phase rotation'] as const;
const VALUES = ['OL', 'ABC', 'CBA', 0, -0, 120, 121.3, 208, 240, 277, 480, 1e9, -1e9, 1e308, 5e-324, 0.2, 55] as const;
const TIMES = ['2026-01-05T10:00:00Z', '1970-01-01T00:00:00Z', '+275760-09-13T00:00:00Z', 'not a time'] as const;

const point = (random: () => number): TestPoint => {
  const k = random();
  if (k < 0.6) return { kind: 'conductor', conductor: pick(random, ['a', 'b', 'c', 'n', 'g', 'nobody', '__proto__']) };
  if (k < 0.75) return { kind: 'ground' };
  if (k < 0.85) return { kind: 'neutral bar' };
  return { kind: 'pole', system: pick(random, ['us-208y120', 'unheard-of']), role: pick(random, ROLES) };
};

const reading = (random: () => number, k: number): Reading => ({
  id: random() < 0.95 ? `r${k}` : 'r0',
  from: point(random),
  to: point(random),
  function: pick(random, FUNCTIONS),
  ...(random() < 0.1 ? { third: point(random) } : {}),
  ...(random() < 0.2 ? { condition: pick(random, CHECK_CONDITIONS) } : {}),
  value: pick(random, VALUES),
  at: random() < 0.8 ? TIMES[0] : pick(random, TIMES),
  by: 'invented tester',
  ...(random() < 0.15 ? { supersedes: `r${between(random, 0, 8)}` } : {}),
  ...(random() < 0.1 ? { confirmed: true } : {}),
});

/** Any readings at all: a verdict comes, and metered stays what readings have earned. */
export const readings: Target = {
  name: 'readings',
  share: 6,
  make: (random) =>
    JSON.parse(JSON.stringify(Array.from({ length: between(random, 0, 8) }, (_, k) => reading(random, k)))) as Json,
  check(input) {
    const map: PhaseMap = mapOf(WYE_208);
    const all = jsonOf(input) as unknown as readonly Reading[];
    const verdict = judge(map, all);
    must(verdict.conductors.length === map.assignments.length, 'a conductor was lost');
    for (const { conductor, standing, missing, agree, contradict } of verdict.conductors) {
      const touching = all.filter((r) =>
        [r.from, r.to, r.third].some((p) => p?.kind === 'conductor' && p.conductor === conductor),
      );
      must(standing !== 'metered' || touching.length > 0, `${conductor} metered and never touched`);
      must(
        standing !== 'metered' || (missing.length === 0 && contradict.length === 0),
        `${conductor} metered too early`,
      );
      must(
        [...agree, ...contradict].every((id) => all.some((r) => r.id === id)),
        'a reading nobody took',
      );
    }
    for (const { roles } of verdict.map.assignments)
      must(
        roles.every((r) => r.probability >= 0 && r.probability <= 1 + 1e-6),
        'a probability out of range',
      );
  },
};

const KEYS = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '-', 'back'] as const satisfies readonly PadKey[];

/** Whatever is pressed on the pad, what it stands for is a number a meter can show, or nothing yet. */
export const pad: Target = {
  name: 'number pad',
  share: 3,
  make: (random) => Array.from({ length: between(random, 0, 12) }, () => pick(random, KEYS)),
  check(input) {
    let entry = EMPTY_ENTRY;
    for (const key of jsonOf(input) as readonly PadKey[]) entry = press(entry, key);
    for (const meterFunction of FUNCTIONS) {
      const value = entered(entry, meterFunction);
      must(value === null || (typeof value === 'number' && Math.abs(value) < 1e6), `${value} on the pad`);
      must(meterFunction !== 'phase rotation' || value === null, 'digits as an order of phases');
    }
  },
};
