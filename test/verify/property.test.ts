import { describe, expect, it } from 'vitest';
import type { Check, MeterFunction, PhaseMap, Reading, TestPoint } from '../../src/flow';
import { checkId, judge, planChecks } from '../../src/verify';
import { cases } from '../cases';
import { mapOf, type Said, WYE_208 } from './fixtures';
import { Chance } from './sim/chance';
import { asClaimed } from './sim/honest';
import { METER, readingOf } from './sim/probe';
import { makeSite } from './sim/site';

const OPTIONS = { meter: METER };

const VOLTS = [0, 0.4, 2, 60, 104, 117, 118, 120, 203, 208, 216, 240, 277, 480, -120, 1198] as const;

/** Anything a user or a broken import could hand in: right, wrong, repeated, replaced, unsigned, out of order. */
function anyReadings(honest: readonly Reading[], chance: Chance): Reading[] {
  const found: Reading[] = [];
  const honesty = chance.pick([0.7, 0.98, 1]);
  const count = Math.floor(chance.between(0, 4 * honest.length));
  for (let k = 0; k < count; k++) {
    const base = chance.pick(honest);
    const dice = chance.next();
    const value = dice < honesty ? base.value : dice < 0.8 ? 'OL' : chance.pick(VOLTS);
    const one: Reading = {
      ...base,
      id: `x${k}`,
      value,
      confirmed: chance.next() < 0.5,
      by: chance.next() < 0.05 ? '' : base.by,
      at: chance.next() < 0.05 ? 'never' : base.at,
    };
    const replaces = found.length > 0 && chance.next() < 0.15 ? { supersedes: chance.pick(found).id } : {};
    const back = chance.next() < 0.03 ? { takenBack: { by: 'x', at: '2026-01-05T11:00:00Z' } } : {};
    const loaded: MeterFunction = 'AC volts, low impedance';
    const swap = chance.next() < 0.1 && one.function === loaded ? { function: 'AC volts' as const } : {};
    found.push({ ...one, ...replaces, ...swap, ...back });
  }
  return found;
}

/** The required set told again in the test's own words, not by the room's code: what a role must have been read against. */
function coverageHolds(map: PhaseMap, conductor: string, readings: readonly Reading[], verdictMap: PhaseMap): boolean {
  const replaced = new Set(readings.flatMap((r) => r.supersedes ?? []));
  const counted = readings.filter(
    (r) => !replaced.has(r.id) && !r.takenBack && r.by.trim() !== '' && !Number.isNaN(Date.parse(r.at)),
  );
  const role = verdictMap.assignments.find((a) => a.conductor === conductor)?.roles[0]?.role;
  const roleOf = (p: TestPoint): string =>
    p.kind === 'conductor'
      ? (verdictMap.assignments.find((a) => a.conductor === p.conductor)?.roles[0]?.role ?? 'nothing')
      : p.kind === 'pole'
        ? `pole ${p.role}`
        : p.kind;
  const others = counted.flatMap((r) => {
    const leads = [r.from, r.to];
    const mine = leads.findIndex((p) => p.kind === 'conductor' && p.conductor === conductor);
    const other = leads[1 - mine];
    return mine < 0 || !other ? [] : [{ other: roleOf(other), reading: r }];
  });
  const against = (wanted: (other: string) => boolean, functions: readonly string[]): boolean =>
    others.some((o) => wanted(o.other) && functions.includes(o.reading.function));
  const volts = ['AC volts', 'AC volts, low impedance'];
  const isPhase = (o: string): boolean => o.startsWith('phase') || o.startsWith('pole phase');
  const lifted = others.some(
    (o) => o.reading.function === 'continuity' && o.reading.condition === 'supply off, lifted',
  );
  const toGround = against((o) => o === 'ground', volts);
  if (role === 'equipment grounding conductor') return toGround && lifted && against(isPhase, volts);
  if (role === 'grounded conductor') return toGround && lifted && against(isPhase, [volts[1] as string]);
  const letters = new Set(others.flatMap((o) => (isPhase(o.other) ? [o.other.slice(-1)] : [])));
  return (
    toGround &&
    against((o) => o === 'grounded conductor' || o === 'neutral bar', [volts[1] as string]) &&
    against((o) => o === `pole ${role}`, volts) &&
    ['A', 'B', 'C'].every((l) => letters.has(l)) &&
    map.assignments.length > 0
  );
}

describe('no sequence of inputs reaches metered without the required set', () => {
  const map = mapOf(WYE_208);

  it('100 random sequences: whatever is metered had its whole set, told independently', () => {
    const honest = asClaimed(map, OPTIONS);
    let metered = 0;
    for (let k = 0; k < cases(100); k++) {
      const readings = anyReadings(honest, new Chance(k + 11));
      const verdict = judge(map, readings, OPTIONS);
      for (const c of verdict.conductors) {
        if (c.standing !== 'metered') continue;
        metered += 1;
        expect(c.missing).toEqual([]);
        expect(c.contradict).toEqual([]);
        expect(coverageHolds(map, c.conductor, readings, verdict.map)).toBe(true);
      }
    }
    // Without any metered conductor the property would be empty.
    expect(metered).toBeGreaterThan(cases(100) / 5);
  }, 120_000);

  it('the independent telling of the set does reject a set with one reading taken out', () => {
    // Twin: the check above must be able to fail.
    const full = asClaimed(map, OPTIONS);
    expect(coverageHolds(map, 'a', full, map)).toBe(true);
    const parts = full.filter((r) => checkId(r).includes('conductor a') && !checkId(r).includes('conductor g'));
    expect(parts.length).toBeGreaterThan(4);
    for (const out of parts)
      expect(
        coverageHolds(
          map,
          'a',
          full.filter((r) => r !== out),
          map,
        ),
      ).toBe(false);
  });

  it('taking back any one required reading takes metered away, and putting it in again brings it back', () => {
    const full = asClaimed(map, OPTIONS);
    const standing = (readings: readonly Reading[]) =>
      judge(map, readings, OPTIONS).conductors.find((c) => c.conductor === 'a')?.standing;
    const own = full.filter((r) => checkId(r).includes('conductor a') && !checkId(r).includes('conductor g'));
    expect(standing(full)).toBe('metered');
    for (const out of own) {
      const taken = full.map((r) => (r === out ? { ...r, takenBack: { by: 'x', at: '2026-01-05T11:00:00Z' } } : r));
      expect(standing(taken)).toBe('by color');
      expect(standing([...taken, { ...out, id: 'new' }])).toBe('metered');
    }
  });

  it('an edit of any one conductor takes metered away from it, whatever was read before', () => {
    const full = asClaimed(map, OPTIONS);
    for (const { conductor } of map.assignments) {
      const options = { ...OPTIONS, edited: { [conductor]: '2026-02-01T00:00:00Z' } };
      const after = judge(map, full, options).conductors.find((c) => c.conductor === conductor);
      expect(after?.standing).toBe('by color');
    }
  });

  it('probability alone is worth nothing: a map that is certain of everything stays by color', () => {
    const certain = mapOf(WYE_208.map((s: Said) => ({ ...s, probability: 1 })));
    expect(judge(certain, [], OPTIONS).conductors.map((c) => c.standing)).toEqual(Array(5).fill('by color'));
  });

  it('reading the same check a hundred times does not replace another', () => {
    const one = asClaimed(map, OPTIONS)[0] as Reading;
    const many = Array.from({ length: 100 }, (_, i): Reading => ({ ...one, id: `m${i}` }));
    expect(judge(map, many, OPTIONS).conductors.some((c) => c.standing === 'metered')).toBe(false);
  });

  it('a plain reading does not answer a check that asks for the loaded range', () => {
    const plain = asClaimed(map, OPTIONS).map(
      (r): Reading => (r.function === 'AC volts, low impedance' ? { ...r, function: 'AC volts' } : r),
    );
    const found = judge(map, plain, OPTIONS).conductors.filter((c) => ['a', 'b', 'c', 'n'].includes(c.conductor));
    expect(found.map((c) => c.standing)).toEqual(Array(4).fill('by color'));
  });
});

describe('order, leads and repetition do not matter', () => {
  it('the same readings in any order give the same standings and map', () => {
    for (let k = 0; k < cases(12); k++) {
      const chance = new Chance(900 + k);
      const map = makeSite(chance, { wrong: 'nothing' }).map;
      const readings = asClaimed(map, OPTIONS, chance.between(0.92, 1.03));
      const one = judge(map, readings, OPTIONS);
      const other = judge(map, chance.shuffled(readings), OPTIONS);
      expect(other.conductors.map((c) => c.standing)).toEqual(one.conductors.map((c) => c.standing));
      expect(other.map.assignments.map((a) => a.roles[0]?.role)).toEqual(
        one.map.assignments.map((a) => a.roles[0]?.role),
      );
    }
  });

  it('swapping the leads changes nothing on AC', () => {
    const map = mapOf(WYE_208);
    const turned = asClaimed(map, OPTIONS).map((r): Reading => ({ ...r, from: r.to, to: r.from }));
    expect(judge(map, turned, OPTIONS).conductors.map((c) => c.standing)).toEqual(Array(5).fill('metered'));
  });

  it('the plan is empty once everything is proved, and never asks again for what is in', () => {
    const map = mapOf(WYE_208);
    const readings = asClaimed(map, OPTIONS);
    expect(planChecks(map, readings, OPTIONS).next).toEqual([]);
    const half = readings.slice(0, 8);
    const asked = planChecks(map, half, OPTIONS).next.map((c: Check) => c.id);
    for (const r of half) expect(asked).not.toContain(checkId(r));
    expect(readingOf(planChecks(map, half, OPTIONS).next[0] as Check, 1).function).toBeDefined();
  });
});
