import { describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { judge, planChecks, question } from '../../src/verify';
import { type Belief, expectation } from '../../src/verify/agreement';
import { claimsOf } from '../../src/verify/claim';
import { expectedOhms } from '../../src/verify/end';
import { logLikelihood } from '../../src/verify/likelihood';
import { modelsFor } from '../../src/verify/models';
import { bandOptions } from '../../src/verify/options';
import { sightOf } from '../../src/verify/sight';
import { variantsOf } from '../../src/verify/variant';
import { ground, mapOf, on, read, type Said, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };
const SPLIT: readonly Said[] = [
  { id: 'x', system: 'us-120-240-1ph', role: 'line 1' },
  { id: 'n', system: 'us-120-240-1ph', role: 'grounded conductor' },
];
const SWITCH: Said = { id: 's', system: 'us-switch-legs', role: 'switch leg' };

describe('a switch leg', () => {
  const needs = (said: readonly Said[], circuit: readonly string[] = []) =>
    planChecks(mapOf(said), [], {
      ...OPTIONS,
      site: {
        jurisdiction: 'US',
        systems: [],
        legend: [],
        spaces: {},
        groups: circuit.length > 0 ? [{ kind: 'circuit', conductors: circuit }] : [],
      },
    }).next.filter((c) => c.requiredFor.includes('s'));

  it('is read against the neutral of its own circuit where that is known, else against the bar', () => {
    const own = needs([...SPLIT, SWITCH], ['s', 'n']);
    expect(own.map((c) => c.to)).toEqual(own.map(() => on('n')));
    const any = needs([...SPLIT, SWITCH]);
    expect(any.map((c) => c.to.kind)).toEqual(any.map(() => 'neutral bar'));
  });

  it('is lit both ways only where travelers are claimed: without a second switch there is no other way', () => {
    const conditions = (said: readonly Said[]) => needs(said).map((c) => c.condition);
    expect(conditions([...SPLIT, SWITCH])).toEqual(['switch on', 'switch off']);
    const three = conditions([...SPLIT, SWITCH, { id: 't', system: 'us-switch-legs', role: 'traveler' }]);
    expect(three).toContain('switch on, both switches moved');
  });
});

describe('rotation for motors', () => {
  const turns = (said: readonly Said[]) =>
    planChecks(mapOf(said), [], { ...OPTIONS, motors: true }).next.filter((c) => c.function === 'phase rotation')
      .length;

  it('is asked for where three lines of a rotating system are claimed, once, and nowhere else', () => {
    expect(turns(WYE_208)).toBe(1);
    expect(turns(WYE_208.filter((s) => s.id !== 'b'))).toBe(0);
    expect(turns(SPLIT)).toBe(0);
  });
});

describe('what nothing can be expected of', () => {
  const map = mapOf([
    ...WYE_208,
    { id: 'x', system: 'us-480y277', role: 'high leg' },
    { id: 'm', system: 'iec-dc', role: 'positive' },
  ]);
  const belief: Belief = {
    claims: new Map(claimsOf(map).map((c) => [c.conductor, c])),
    models: modelsFor(map, { 'iec-dc': 220 }),
    band: bandOptions(OPTIONS),
  };
  const volts = (to: string, more: Partial<Reading> = {}) =>
    expectation({ from: on('a'), to: on(to), function: 'AC volts', ...more }, belief);

  it('a place that nobody claims, DC beside AC, a role that a system lacks, the wrong range', () => {
    expect(volts('nobody')).toBeNull();
    expect(volts('m')).toBeNull();
    expect(volts('x')).toBeNull();
    expect(volts('b', { function: 'DC volts' })).toBeNull();
    // Twin: between two phases on the AC range there is.
    expect(volts('b')?.nominal).toBeCloseTo(120 * Math.sqrt(3), 9);
  });

  it('continuity between two conductors, or to a place of no system', () => {
    const line = { system: 'us-208y120', role: 'phase A' } as const;
    const earth = { system: null, role: 'ground' } as const;
    expect(expectedOhms(line, { ...line, role: 'phase B' }, 'supply off, lifted')).toBeNull();
    expect(expectedOhms(earth, earth, 'supply off, lifted')).toBeNull();
    // Twin: to ground, either way round, an ungrounded conductor is open.
    expect(expectedOhms(line, earth, 'supply off, lifted')?.open).toBe(true);
    expect(expectedOhms(earth, line, 'supply off, lifted')?.open).toBe(true);
  });

  it('so that no world is told from another by it', () => {
    const [variant] = variantsOf(mapOf(WYE_208), modelsFor(mapOf(WYE_208)));
    if (!variant) throw new Error('a wye is a supply');
    const [state] = variant.states;
    if (!state) throw new Error('a wye has states');
    const ohms = { function: 'continuity', condition: 'supply off, lifted' } as const;
    expect(sightOf(read(on('a'), on('b'), 0.2, ohms), [state, state], variant).kind).toBe('blind');
    const overload = read(on('a'), ground, 'OL');
    const rows = ['open', 'volts'].map((kind, i) => {
      const sight =
        kind === 'open'
          ? ({ kind: 'open', reach: 120 } as const)
          : ({ kind: 'volts', nominal: 120, base: 120, loose: false, side: 208, blur: 0 } as const);
      return [...logLikelihood({ ...overload }, sight, 9_100_000 + i, METER)];
    });
    expect(rows[0]).toEqual(rows[1]);
  });
});

describe('a reading that was taken back', () => {
  const at = (minute: number): string => `2026-01-05T10:${String(minute).padStart(2, '0')}:00Z`;
  const map = mapOf(WYE_208);
  const said = (readings: readonly Reading[]) => judge(map, readings, OPTIONS).changes.map((c) => c.code);
  const one = (id: string, minute: number, back?: number): Reading => ({
    ...read(on(id), ground, 119),
    at: at(minute),
    ...(back === undefined ? {} : { takenBack: { by: 'x', at: at(back) } }),
  });

  it('is what was last done, where it came after the last reading; of several the last one taken back', () => {
    const aside = 'verify.aside.taken-back';
    expect(said([one('a', 1, 9), one('b', 2)])).toContain(aside);
    // Twin: a reading made afterwards is the news.
    expect(said([one('a', 1, 2), one('b', 9)])).not.toContain(aside);
    const order = (first: number, second: number) => said([one('a', 1, first), one('b', 2, second), one('c', 3)]);
    for (const codes of [order(8, 9), order(9, 8)]) expect(codes.filter((c) => c === aside)).toHaveLength(1);
  });
});

describe('a system that color ruled out', () => {
  const map = mapOf([{ id: 'a', system: 'us-208y120', role: 'phase A' }]);
  const weight = (system: string, ruledOut: boolean): number => {
    const eliminated = ruledOut ? [{ system, why: { code: 'identify.eliminated' } }] : [];
    const found = variantsOf({ ...map, eliminated }, modelsFor(map));
    return found
      .filter((v) => v.systems.some((s) => s.id === system))
      .reduce((sum, v) => sum + Math.exp(v.logPrior), 0);
  };

  it('stays possible for the meter: color never rules out what the meter may show', () => {
    expect(weight('us-480y277', true)).toBeCloseTo(weight('us-480y277', false), 9);
    expect(weight('us-480y277', true)).toBeGreaterThan(0);
    // Also one of another country, which is else not looked at.
    expect(weight('uk-230-400', false)).toBe(0);
    expect(weight('uk-230-400', true)).toBeGreaterThan(0);
  });
});

describe('a question about a reading with three leads', () => {
  it('looks at all three: no two may stand on one place', () => {
    const turning = { function: 'phase rotation', third: on('c') } as const;
    const map = mapOf(WYE_208);
    expect(question(read(on('a'), on('b'), 'ABC', turning), map)).toBeNull();
    expect(question(read(on('a'), on('b'), 'ABC', { ...turning, third: on('b') }), map)?.code).toBe(
      'verify.question.same-place',
    );
  });
});
