import { beforeEach, describe, expect, it } from 'vitest';
import type { CheckCondition, MeterFunction, PhaseMap, Reading, Role, SystemId } from '../../src/flow';
import { SYSTEMS } from '../../src/identify';
import { checkId, judge, planChecks, question, stops } from '../../src/verify';
import { type Claim, claimsOf, isLine } from '../../src/verify/claim';
import { type End, expectedOhms, expectedVolts } from '../../src/verify/end';
import { kindOf } from '../../src/verify/kind';
import { logLikelihood, sightKey } from '../../src/verify/likelihood';
import { modelOf, modelsFor } from '../../src/verify/models';
import { bandOptions } from '../../src/verify/options';
import { requiredChecks } from '../../src/verify/required';
import { sightOf } from '../../src/verify/sight';
import { sightTable } from '../../src/verify/sight-table';
import type { State } from '../../src/verify/state';
import { statesOf } from '../../src/verify/states';
import { type Variant, variantsOf } from '../../src/verify/variant';
import { say } from '../../src/words';
import { bar, ground, mapOf, on, pole, read, type Said, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const HIGH: readonly Said[] = [
  { id: 'a', system: 'us-240-120-high-leg', role: 'phase A' },
  { id: 'h', system: 'us-240-120-high-leg', role: 'high leg' },
  { id: 'c', system: 'us-240-120-high-leg', role: 'phase C' },
];
const SPLIT: readonly Said[] = [
  { id: 'x', system: 'us-120-240-1ph', role: 'line 1' },
  { id: 'y', system: 'us-120-240-1ph', role: 'line 2' },
];
const LEGS: readonly Said[] = [
  ...WYE_208,
  { id: 's', system: 'us-switch-legs', role: 'switch leg' },
  { id: 't', system: 'us-switch-legs', role: 'traveler' },
];
const everySystem = (): SystemId[] => Object.keys(SYSTEMS);
const onlyOf = (map: PhaseMap, id: SystemId): Variant => {
  const found = variantsOf(map, modelsFor(map)).find((v) => v.systems.length === 1 && v.systems[0]?.id === id);
  if (!found) throw new Error(`no variant of ${id}`);
  return found;
};
const whole = (variant: Variant, role: Role): State => {
  const found = variant.states.find((s) => s.role === role && s.fault === null);
  if (!found) throw new Error(`no ${role}`);
  return found;
};

describe('the two leads of a meter', () => {
  it('may change places: what is expected between any two ends of a supply is the same', () => {
    const map = mapOf([...LEGS, ...SPLIT, ...HIGH]);
    const models = modelsFor(map);
    const band = bandOptions({ meter: METER });
    const ends: End[] = [
      { system: null, role: 'ground' },
      { system: null, role: 'grounded conductor' },
      ...map.systems.flatMap(({ system }) => (models(system)?.points ?? []).map(({ role }): End => ({ system, role }))),
    ];
    const conditions: (CheckCondition | undefined)[] = [undefined, 'switch on', 'switch off'];
    const seen = (a: End, b: End, condition: CheckCondition | undefined) => {
      const found = expectedVolts(a, b, condition, models, band);
      return found && [found.nominal, found.low, found.high].map((v) => Math.abs(v).toFixed(6)).join();
    };
    let told = 0;
    for (const a of ends)
      for (const b of ends)
        for (const condition of conditions) {
          expect(seen(b, a, condition)).toBe(seen(a, b, condition));
          told += Number(seen(a, b, condition) !== null);
        }
    expect(told).toBeGreaterThan(500);
    // A switch leg between the bar or a line of its host is told, not merely left out both ways.
    const leg: End = { system: 'us-switch-legs', role: 'switch leg' };
    expect(expectedVolts(leg, { system: null, role: 'grounded conductor' }, 'switch on', models, band)?.nominal).toBe(
      120,
    );
    expect(
      expectedVolts({ system: 'us-208y120', role: 'grounded conductor' }, leg, 'switch on', models, band)?.nominal,
    ).toBe(120);
  });

  it('may not in a test of rotation, where the order of the leads is what is asked', () => {
    const turn = (...ids: readonly [string, string, string]): Reading =>
      read(on(ids[0]), on(ids[1]), 'ABC', { function: 'phase rotation', third: on(ids[2]) });
    expect(checkId(turn('a', 'b', 'c'))).not.toBe(checkId(turn('c', 'b', 'a')));
    expect(checkId(turn('a', 'b', 'c'))).toBe(checkId(turn('a', 'b', 'c')));
    expect(checkId(read(on('a'), on('b'), 208))).toBe(checkId(read(on('b'), on('a'), 208)));
  });
});

describe('the order in which phases turn', () => {
  /** By the angle alone: how far the second and third stand behind the first, which a clock hand would say. */
  const byAngle = (places: readonly { readonly re: number; readonly im: number }[]): 'ABC' | 'CBA' => {
    const middle = {
      re: places.reduce((sum, p) => sum + p.re, 0) / 3,
      im: places.reduce((sum, p) => sum + p.im, 0) / 3,
    };
    const [x, y, z] = places.map((p) => Math.atan2(p.im - middle.im, p.re - middle.re)) as [number, number, number];
    const behind = (angle: number): number => (((x - angle) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
    return behind(y) < behind(z) ? 'ABC' : 'CBA';
  };

  it.each([
    ['wye', WYE_208, ['phase A', 'phase B', 'phase C']],
    ['high-leg delta', HIGH, ['phase A', 'high leg', 'phase C']],
  ] as const)('is what the angles of a %s say, from whichever three leads', (_, said, roles) => {
    const variant = onlyOf(mapOf(said), said[0]!.system);
    for (const i of [0, 1, 2])
      for (const j of [0, 1, 2])
        for (const k of [0, 1, 2]) {
          if (new Set([i, j, k]).size < 3) continue;
          const states = [i, j, k].map((n) => whole(variant, roles[n]!));
          const reading = read(on('p'), on('q'), 'ABC', { function: 'phase rotation', third: on('r') });
          const places = states.map((s) => s.potential(undefined) as { re: number; im: number });
          expect(sightOf(reading, states, variant)).toEqual({ kind: 'rotation', order: byAngle(places) });
        }
    // As named it runs A, B, C: the high leg takes the place of B (NEC 110.15 and 408.3(E), from memory).
    const asNamed = roles.map((r) => whole(variant, r));
    const reading = read(on('p'), on('q'), 'ABC', { function: 'phase rotation', third: on('r') });
    expect(sightOf(reading, asNamed, variant)).toEqual({ kind: 'rotation', order: 'ABC' });
  });

  it('heard as it is weighs more than heard the other way round, and so does a closed loop where it is closed', () => {
    const log = (
      value: Reading['value'],
      dial: MeterFunction,
      sight: Parameters<typeof logLikelihood>[1],
      id: number,
    ) => logLikelihood(read(on('a'), on('b'), value, { function: dial, third: on('c') }), sight, id, METER)[0]!;
    const turn = { kind: 'rotation', order: 'ABC' } as const;
    expect(log('ABC', 'phase rotation', turn, 9_300_001)).toBeGreaterThan(
      log('CBA', 'phase rotation', turn, 9_300_002),
    );
    const [open, closed] = [
      { kind: 'ohms', closed: false },
      { kind: 'ohms', closed: true },
    ] as const;
    for (const value of ['OL', 1e6] as const) {
      expect(log(value, 'continuity', open, 9_300_003)).toBeGreaterThan(log(value, 'continuity', closed, 9_300_004));
    }
    expect(log(0.3, 'continuity', closed, 9_300_005)).toBeGreaterThan(log(0.3, 'continuity', open, 9_300_006));
    // Between the two, a load: speaks for neither by much.
    const load = log(400, 'continuity', open, 9_300_007) - log(400, 'continuity', closed, 9_300_008);
    expect(Math.abs(load)).toBeLessThan(2);
  });
});

describe('an ohmmeter', () => {
  const lifted = (from: Reading['from'], to: Reading['to'], condition: CheckCondition): Reading =>
    read(from, to, 'OL', { function: 'continuity', condition });
  let variant: Variant;
  beforeEach(() => {
    variant = onlyOf(mapOf(WYE_208), 'us-208y120');
  });
  const see = (reading: Reading, ...roles: (Role | null)[]) =>
    sightOf(
      reading,
      roles.map((r) => (r === null ? null : whole(variant, r))),
      variant,
    );

  it('sees the bond of a grounding conductor, of no other, and of none lifted at both ends', () => {
    const g = 'equipment grounding conductor';
    expect(see(lifted(on('g'), ground, 'supply off, lifted'), g, null)).toEqual({ kind: 'ohms', closed: true });
    expect(see(lifted(ground, on('g'), 'supply off, lifted'), null, g)).toEqual({ kind: 'ohms', closed: true });
    expect(see(lifted(on('n'), ground, 'supply off, lifted'), 'grounded conductor', null)).toEqual({
      kind: 'ohms',
      closed: false,
    });
    for (const role of [g, 'phase A'] as const) {
      const both = lifted(on('g'), ground, 'supply off, both ends lifted');
      const bonded = lifted(on('g'), ground, 'supply off, far end bonded');
      expect(see(both, role, null)).toEqual({ kind: 'ohms', closed: false });
      expect(see(bonded, role, null)).toEqual({ kind: 'ohms', closed: true });
    }
  });

  it('tells nothing between two conductors or to another place than ground', () => {
    expect(see(lifted(on('g'), on('n'), 'supply off, lifted'), 'equipment grounding conductor', 'phase A').kind).toBe(
      'blind',
    );
    expect(see(lifted(on('g'), bar, 'supply off, lifted'), 'equipment grounding conductor', null).kind).toBe('blind');
    expect(see(lifted(ground, ground, 'supply off, lifted'), null, null).kind).toBe('blind');
    const claimed: End = { system: 'us-208y120', role: 'equipment grounding conductor' };
    expect(expectedOhms(claimed, { system: null, role: 'grounded conductor' }, 'supply off, lifted')).toBeNull();
    expect(expectedOhms({ system: null, role: 'ground' }, claimed, 'supply off, lifted')?.high).toBe(1);
  });
});

describe('the supplies that readings are weighed under', () => {
  let all: Variant[];
  let map: PhaseMap;
  beforeEach(() => {
    map = mapOf([...LEGS, ...SPLIT]);
    all = variantsOf(map, modelsFor(map));
  });

  it('come likeliest first, and pairs are of bonded AC supplies that the map sees', () => {
    const logs = all.map((v) => v.logPrior);
    expect([...logs].sort((p, q) => q - p)).toEqual(logs);
    const seen = new Set(map.systems.map((s) => s.system));
    const pairs = all.filter((v) => v.systems.length === 2);
    expect(pairs).toHaveLength(1);
    for (const { systems, groundFault } of pairs) {
      expect(groundFault).toBe(false);
      for (const s of systems) {
        expect(s.ground).toBe('bonded');
        expect(s.current).toBe('AC');
        expect(seen.has(s.id)).toBe(true);
      }
    }
    const isolated = mapOf([...WYE_208, { id: 'i', system: 'us-isolated-power', role: 'isolated conductor 1' }]);
    const posted = { 'us-isolated-power': 120 };
    expect(variantsOf(isolated, modelsFor(isolated, posted)).filter((v) => v.systems.length === 2)).toEqual([]);
  });

  it('hold of switched wiring only its legs and travelers, and of unseen supplies no faults that leave doubt', () => {
    for (const { states, systems } of all) {
      const switched = states.filter((s) => s.system === 'us-switch-legs');
      expect(new Set(switched.map((s) => s.role))).toEqual(new Set(['switch leg', 'traveler']));
      const unseen = systems.some((m) => !map.systems.some((s) => s.system === m.id));
      if (unseen) expect(states.every((s) => s.blur === 0)).toBe(true);
    }
    expect(onlyOf(map, 'us-208y120').states.some((s) => s.blur > 0)).toBe(true);
  });

  it('count the roles of a kind: three lines of a wye are alike, its neutral and grounding conductor stand alone', () => {
    const { kinds } = onlyOf(mapOf(WYE_208), 'us-208y120');
    for (const { role, alike } of kinds) expect(alike).toBe(kindOf(role) === 'line' ? 3 : 1);
    expect(kinds).toHaveLength(5);
  });

  it('have ground on any corner of a floating supply, or about its middle, with odds that sum to its own', () => {
    const delta = mapOf([{ id: 'p', system: 'us-480-delta', role: 'phase A' }]);
    const own = variantsOf(delta, modelsFor(delta)).filter(
      (v) => v.systems.length === 1 && v.systems[0]?.id === 'us-480-delta',
    );
    const odds = (of: readonly Variant[]): number => of.reduce((sum, v) => sum + Math.exp(v.logPrior), 0);
    expect(odds(own)).toBeCloseTo(0.9, 9);
    const faults = own.filter((v) => v.groundFault);
    expect(faults).toHaveLength(3);
    expect(odds(faults) / odds(own)).toBeCloseTo(0.04, 9);
    // With ground on a corner that line reads 0 V and the two others 480 V (IEC 60364-4-41 411.6, first fault in IT).
    for (const { ground: at, systems } of faults) {
      const volts = systems[0]!.points
        .filter((p) => isLine(p.role))
        .map((p) => Math.round(Math.hypot(p.at.re - at.re, p.at.im - at.im)));
      expect(volts.sort((p, q) => p - q)).toEqual([0, 480, 480]);
    }
  });

  it('are looked up by what is read: the table is what each pair of states shows, for every function and condition', () => {
    const variant = onlyOf(mapOf(LEGS), 'us-208y120');
    const n = variant.states.length;
    const readings = [
      read(on('p'), bar, 1),
      read(on('p'), bar, 1, { condition: 'switch off' }),
      read(on('p'), bar, 1, { condition: 'position 2' }),
      read(on('p'), ground, 1, { function: 'continuity', condition: 'supply off, lifted' }),
      read(on('p'), ground, 1, { function: 'continuity', condition: 'supply off, both ends lifted' }),
      read(on('p'), ground, 1, { function: 'DC volts' }),
      read(pole('us-208y120', 'phase B'), on('p'), 1),
      read(on('p'), on('q'), 1),
    ];
    for (const reading of readings) {
      const { classes, of } = sightTable(variant, reading);
      const pair = reading.to.kind === 'conductor' && reading.from.kind === 'conductor';
      expect(of).toHaveLength(pair ? n * n : n);
      for (let i = 0; i < of.length; i++) {
        const first = variant.states[i % n]!;
        const states = pair
          ? [first, variant.states[Math.floor(i / n)]!]
          : reading.from.kind === 'conductor'
            ? [first, null]
            : [null, first];
        expect(sightKey(classes[of[i]!]!.sight)).toBe(sightKey(sightOf(reading, states, variant)));
      }
    }
  });
});

describe('a phase that lost its feed', () => {
  it('is fed back toward its own place, and between the two others where there are two', () => {
    const fed = (id: SystemId, role: Role) =>
      statesOf(modelOf(id)!).filter((s) => s.role === role && s.fault === 'lost phase, fed back');
    // One other line: nothing to stand between.
    expect(fed('us-120-240-1ph', 'line 1')).toHaveLength(4);
    for (const s of fed('us-120-240-1ph', 'line 1')) {
      const at = s.potential(undefined) as { re: number; im: number };
      expect(at.im).toBeCloseTo(0, 9);
      expect(at.re).toBeGreaterThan(0.4 * 120);
      expect(at.re).toBeLessThan(0.75 * 120);
    }
    // Between B and C the real part is theirs: half the phase voltage on the other side (geometry of a wye).
    const between = fed('us-208y120', 'phase A')
      .map((s) => s.potential(undefined) as { re: number; im: number })
      .filter((p) => p.re < 0);
    expect(between).toHaveLength(5);
    for (const { re } of between) expect(re).toBeCloseTo(-60, 6);
  });
});

describe('checks that must be made', () => {
  const needs = (said: readonly Said[], motors = false) => {
    const map = mapOf(said);
    return requiredChecks({ claims: claimsOf(map), groups: [], models: modelsFor(map), motors });
  };

  it('each say why, in a sentence, for a full set of every supply', () => {
    for (const id of everySystem()) {
      const roles = SYSTEMS[id]!.roles;
      for (const need of needs(
        [...WYE_208, ...roles.map((role, k): Said => ({ id: `${id} ${k}`, system: id, role }))],
        true,
      )) {
        expect(say(need.why)).not.toBe(need.why.code);
        expect(say(need.why)).not.toMatch(/[{}]/);
        expect(need.requiredFor.length).toBeGreaterThan(0);
      }
    }
  });

  it('may be met elsewhere only by a check of the same kind between places that exist', () => {
    const said: readonly Said[] = [...WYE_208, { id: 'n2', system: 'us-208y120', role: 'grounded conductor' }];
    const places = [
      ...said.map(({ id }) => `conductor ${id}`),
      ...['phase A', 'phase B', 'phase C'].map((role) => `pole us-208y120 ${role}`),
      'neutral bar',
      'ground',
    ];
    let met = 0;
    for (const need of needs(said))
      for (const other of need.accepts) {
        const [dial, ...rest] = other.split(' | ');
        expect(dial).toBe(need.function);
        for (const place of rest.slice(-2)) expect(places).toContain(place);
        met++;
      }
    expect(met).toBeGreaterThan(0);
  });

  it('send the lead to its own pole only where another line reads alike', () => {
    const own = (said: readonly Said[], id: string) =>
      needs(said).filter((n) => n.why.code === 'verify.why.own-pole' && n.requiredFor.includes(id)).length;
    expect(own(WYE_208, 'a')).toBe(1);
    // One line and its neutral: nothing to be taken for it.
    const single: readonly Said[] = [
      { id: 'l', system: 'iec-230-1ph', role: 'line 1' },
      { id: 'n', system: 'iec-230-1ph', role: 'grounded conductor' },
    ];
    expect(own(single, 'l')).toBe(0);
    // The high leg reads 208 V to neutral and nothing else does (NEC 110.15); its neighbors read alike.
    expect(own(HIGH, 'h')).toBe(0);
    expect(own(HIGH, 'a')).toBe(1);
  });

  it('stand in a plan once each, those with the supply off behind all others', () => {
    const map = mapOf(LEGS);
    const readings = [read(on('a'), ground, 61, { confirmed: true }), read(on('n'), ground, 88, { confirmed: true })];
    for (const given of [[], readings]) {
      const ids = planChecks(map, given, { meter: METER }).next.map((c) => c.id);
      expect(new Set(ids).size).toBe(ids.length);
      const off = ids.map((id) => id.includes('supply off'));
      expect(off.lastIndexOf(false)).toBeLessThan(off.indexOf(true));
    }
  });
});

describe('what a value is asked back about', () => {
  it('says the value, and the most that the site could show', () => {
    const map = mapOf(WYE_208);
    expect(question(read(on('a'), ground, 5000), map)).toEqual({
      code: 'verify.question.too-high',
      values: { value: 5000 },
    });
    // A fifth above 208 V, the most between two lines of it: 249.4 V.
    const most = Math.round(1.2 * 120 * Math.sqrt(3));
    expect(question(read(on('a'), ground, 1175), map)).toEqual({
      code: 'verify.question.above-site',
      values: { value: 1175, limit: most },
    });
    expect(question(read(on('a'), ground, most - 1), map)).toBeNull();
    expect(question(read(on('a'), ground, -5), map)?.values).toEqual({ value: -5 });
  });

  it('has no limit where no voltage of the site is known: DC without a nameplate', () => {
    const map = mapOf([{ id: 'p', system: 'us-dc', role: 'positive' }]);
    const volts = read(on('p'), ground, 48, { function: 'DC volts' });
    expect(question(volts, map)).toBeNull();
    expect(question(volts, map, { posted: { 'us-dc': 24 } })?.code).toBe('verify.question.above-site');
  });
});

describe('reasons to stop', () => {
  it('ask for the volts of a DC supply that has none, and of no other', () => {
    const codes = (map: PhaseMap, posted = {}) => stops(map, { meter: METER, posted }).map((m) => m.code);
    const dc = mapOf([{ id: 'p', system: 'us-dc', role: 'positive' }]);
    expect(codes(dc)).toContain('verify.stop.dc-volts');
    expect(codes(dc, { 'us-dc': 48 })).not.toContain('verify.stop.dc-volts');
    expect(codes(mapOf(WYE_208))).toEqual([]);
    expect(codes(mapOf(SPLIT))).toEqual([]);
  });
});

describe('what was last done', () => {
  it('is a reading taken back at the very moment that another was noted', () => {
    const map = mapOf(WYE_208);
    const at = '2026-01-05T11:00:00Z';
    const wrong = read(on('a'), ground, 61, { confirmed: true });
    const back = { ...wrong, takenBack: { by: 'invented tester', at } };
    const other = read(on('b'), ground, 120, { at });
    const said = judge(map, [back, other], { meter: METER }).changes;
    // With the reading that contradicted gone, `a` is by color again.
    expect(said.find((m) => m.values?.conductor === 'a')).toMatchObject({
      code: 'verify.change.by-color',
      values: { was: 'disputed' },
    });
    // Twin: taken back before the other was noted, that one is the news, and it moves nothing of `a`.
    const before = { ...wrong, takenBack: { by: 'invented tester', at: '2026-01-05T10:30:00Z' } };
    expect(judge(map, [before, other], { meter: METER }).changes.some((m) => m.values?.conductor === 'a')).toBe(false);
  });

  it('is a role where the second pole settles what the first left open', () => {
    const claimed: Claim['role'] = 'phase B';
    const map = mapOf(
      WYE_208.map((s) => (s.id === 'a' ? { ...s, role: claimed } : s.id === 'b' ? { ...s, role: 'phase A' } : s)),
    );
    const readings: Reading[] = [
      read(on('a'), pole('us-208y120', 'phase B'), 208, { confirmed: true }),
      read(on('b'), pole('us-208y120', 'phase A'), 208, { confirmed: true }),
      read(on('a'), ground, 120),
      read(on('a'), on('b'), 208),
      read(on('b'), pole('us-208y120', 'phase B'), 0.2, { confirmed: true }),
      read(on('a'), pole('us-208y120', 'phase A'), 0.2, { confirmed: true }),
    ];
    const roles: unknown[] = [];
    for (let k = 1; k <= readings.length; k++)
      for (const m of judge(map, readings.slice(0, k), { meter: METER }).changes)
        if (m.code === 'verify.change.role') roles.push([m.values?.conductor, m.values?.from, m.values?.to]);
    expect(roles).toContainEqual(['a', 'phase B', 'phase A']);
    expect(roles).toContainEqual(['b', 'phase A', 'phase B']);
  });
});
