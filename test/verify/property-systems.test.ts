import { describe, expect, it } from 'vitest';
import type { PhaseMap, Reading, Role, TestPoint } from '../../src/flow';
import { judge } from '../../src/verify';
import { cases } from '../cases';
import { mapOf, type Said } from './fixtures';
import { Chance } from './sim/chance';
import { asClaimed } from './sim/honest';
import { METER } from './sim/probe';

const N: Role = 'grounded conductor';
const G: Role = 'equipment grounding conductor';

/** The required set in the test's own words: what a line of each system must have been read against, besides ground. */
interface Told {
  readonly lines: readonly Role[];
  readonly neutral: boolean;
  /** Lines that only their own marked pole tells apart. */
  readonly alike: readonly Role[];
}
const SYSTEMS: Readonly<Record<string, Told>> = {
  'us-120-240-1ph': { lines: ['line 1', 'line 2'], neutral: true, alike: ['line 1', 'line 2'] },
  'us-240-120-high-leg': { lines: ['phase A', 'high leg', 'phase C'], neutral: true, alike: ['phase A', 'phase C'] },
  'us-480-delta': {
    lines: ['phase A', 'phase B', 'phase C'],
    neutral: false,
    alike: ['phase A', 'phase B', 'phase C'],
  },
  'us-240-corner': { lines: ['phase A', 'phase C'], neutral: true, alike: ['phase A', 'phase C'] },
  'us-dc': { lines: ['positive', 'negative'], neutral: false, alike: [] },
};

const saidOf = (system: string, { lines, neutral }: Told): Said[] =>
  [...lines, ...(neutral ? [N] : []), ...(system === 'us-dc' ? [] : [G])].map((role, i) => ({
    id: `w${i}`,
    system,
    role,
  }));

/** Did the conductor have all of it, read from the readings alone? */
function coverageHolds(told: Told, map: PhaseMap, conductor: string, readings: readonly Reading[]): boolean {
  const roleOf = (id: string): Role | undefined => map.assignments.find((a) => a.conductor === id)?.roles[0]?.role;
  const place = (p: TestPoint): string =>
    p.kind === 'conductor' ? (roleOf(p.conductor) ?? '') : p.kind === 'pole' ? `pole ${p.role}` : p.kind;
  const counted = readings.filter((r) => !r.takenBack);
  const against = counted.flatMap((r) => {
    const ends = [r.from, r.to];
    const mine = ends.findIndex((p) => p.kind === 'conductor' && p.conductor === conductor);
    const other = ends[1 - mine];
    return mine < 0 || !other ? [] : [{ other: place(other), dial: r.function, condition: r.condition }];
  });
  const volts = (other: string): boolean => against.some((a) => a.other === other && a.dial.includes('volts'));
  const line = (role: Role): boolean => volts(role) || volts(`pole ${role}`);
  const lifted = against.some((a) => a.dial === 'continuity' && a.condition === 'supply off, lifted');
  const role = roleOf(conductor);
  if (role === undefined || !volts('ground')) return false;
  if (role === G) return lifted && (told.neutral === false || told.lines.some(line));
  if (role === N) return lifted && told.lines.every(line);
  return (
    told.lines.filter((l) => l !== role).every(line) &&
    (!told.neutral || volts(N) || volts('neutral bar')) &&
    (!told.alike.includes(role) || volts(`pole ${role}`))
  );
}

describe('no sequence of inputs reaches metered without the required set, in other systems than a wye', () => {
  it.each(Object.entries(SYSTEMS))('%s: 40 random sequences', (system, told) => {
    const options = { meter: METER, posted: { 'us-dc': 125 } };
    const map = mapOf(saidOf(system, told));
    const honest = asClaimed(map, options, 1);
    let metered = 0;
    for (let k = 0; k < cases(40); k++) {
      const chance = new Chance(700 + k);
      const readings = chance
        .shuffled([...honest, ...honest])
        .slice(0, Math.floor(chance.between(0.4, 2) * honest.length))
        .map((r, i): Reading => {
          const one: Reading = { ...r, id: `x${i}` };
          return chance.next() < 0.04 ? { ...one, takenBack: { by: 'x', at: '2026-01-05T11:00:00Z' } } : one;
        });
      const verdict = judge(map, readings, options);
      for (const c of verdict.conductors) {
        if (c.standing !== 'metered') continue;
        metered += 1;
        expect(coverageHolds(told, verdict.map, c.conductor, readings), `${c.conductor} in sequence ${k}`).toBe(true);
      }
    }
    // Without any metered conductor the property would be empty.
    expect(metered).toBeGreaterThan(cases(40) / 4);
  });

  it('the telling does reject a set with any one reading to the first line taken out', () => {
    // Twin: the check must be able to fail.
    for (const [system, told] of Object.entries(SYSTEMS)) {
      const options = { meter: METER, posted: { 'us-dc': 125 } };
      const map = mapOf(saidOf(system, told));
      const full = asClaimed(map, options, 1);
      expect(coverageHolds(told, map, 'w0', full)).toBe(true);
      const others = full.filter(
        (r) => r.from.kind === 'conductor' && r.from.conductor === 'w0' && r.to.kind === 'ground',
      );
      expect(others.length).toBeGreaterThan(0);
      for (const out of others)
        expect(
          coverageHolds(
            told,
            map,
            'w0',
            full.filter((r) => r !== out),
          ),
        ).toBe(false);
    }
  });
});
