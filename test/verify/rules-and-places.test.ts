import { describe, expect, it } from 'vitest';
import type { PhaseMap, Reading, Role } from '../../src/flow';
import { BAND_RULES, judge, planChecks, postable } from '../../src/verify';
import { modelsFor } from '../../src/verify/models';
import { sightOf } from '../../src/verify/sight';
import { answers, checkId } from '../../src/verify/test-point';
import { variantsOf } from '../../src/verify/variant';
import { bar, ground, mapOf, on, pole, read, type Said, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const SPLIT: readonly Said[] = [
  { id: 'x', system: 'us-120-240-1ph', role: 'line 1' },
  { id: 'm', system: 'us-120-240-1ph', role: 'grounded conductor' },
];

describe('rules of supply volts', () => {
  it('each name a source, hold the nominal, and are no narrower at the user nor in the wide range', () => {
    for (const { source, normal, widest } of Object.values(BAND_RULES)) {
      expect(source.length).toBeGreaterThan(10);
      for (const range of [normal, widest])
        for (const [low, high] of [range.service, range.utilization]) {
          expect(low).toBeGreaterThan(0.8);
          expect(low).toBeLessThan(1);
          expect(high).toBeGreaterThan(1);
          expect(high).toBeLessThanOrEqual(1.1);
        }
      for (const { service, utilization } of [normal, widest]) {
        expect(utilization[0]).toBeLessThanOrEqual(service[0]);
        expect(utilization[1]).toBeGreaterThanOrEqual(service[1]);
      }
      for (const place of ['service', 'utilization'] as const) {
        expect(widest[place][0]).toBeLessThanOrEqual(normal[place][0]);
        expect(widest[place][1]).toBeGreaterThanOrEqual(normal[place][1]);
      }
    }
  });

  it('are those of their texts: IEC 60038 10 % each way, BS 7671 +10 -6 %, before 2004 6 % each way (of 240 V)', () => {
    expect(BAND_RULES.iec.normal.service).toEqual([0.9, 1.1]);
    expect(BAND_RULES.uk.widest.utilization.map((k) => Math.round(230 * k))).toEqual([216, 253]);
    expect(BAND_RULES['uk-old'].widest.service.map((k) => Math.round(240 * k))).toEqual([226, 254]);
  });
});

describe('which reading answers which check', () => {
  const check = (reading: Reading) => ({ id: checkId(reading) });
  const plain = read(on('a'), on('n'), 120);
  const loaded = read(on('a'), on('n'), 120, { function: 'AC volts, low impedance' });

  it('a loaded one answers a plain one as well; a plain one is no proof where a loaded one is asked for', () => {
    expect(answers(plain, check(plain))).toBe(true);
    expect(answers(loaded, check(plain))).toBe(true);
    expect(answers(plain, check(loaded))).toBe(false);
  });

  it('twin: no other dial does, nor another place, nor another condition', () => {
    for (const dial of ['DC volts', 'continuity', 'tone'] as const)
      expect(answers(read(on('a'), on('n'), 120, { function: dial }), check(plain))).toBe(false);
    expect(answers(read(on('a'), on('b'), 120), check(plain))).toBe(false);
    expect(answers({ ...loaded, condition: 'switch on' }, check(plain))).toBe(false);
    expect(answers(read(on('a'), on('n'), 120, { condition: 'switch on' }), check(plain))).toBe(false);
  });
});

describe('supplies whose volts only a nameplate tells', () => {
  const map: PhaseMap = {
    systems: [
      { system: 'us-isolated-power', probability: 0.2 },
      { system: 'us-208y120', probability: 0.9 },
      { system: 'us-dc', probability: 0.4 },
      { system: 'us-pv-dc', probability: 0.1 },
      { system: 'uk-dc', probability: 0.099 },
      { system: 'no-such-system', probability: 0.9 },
    ],
    assignments: [],
    eliminated: [],
    findings: [],
  };

  it('are DC and isolated ones from a tenth on, likeliest first', () => {
    expect(postable(map)).toEqual(['us-dc', 'us-isolated-power', 'us-pv-dc']);
  });
});

describe('a reading where two supplies meet', () => {
  const map = mapOf([...WYE_208, ...SPLIT]);
  const both = variantsOf(map, modelsFor(map)).find((v) => v.systems.length === 2);
  const state = (system: string, role: Role) => {
    const found = both?.states.find((s) => s.system === system && s.role === role && s.fault === null);
    if (!found) throw new Error(`no ${role} of ${system}`);
    return found;
  };

  it('is of the one that the leads are on: the most it could show is 208 V in a wye, 240 V in a split phase', () => {
    if (!both) throw new Error('no pair');
    for (const [system, line, most] of [
      ['us-208y120', 'phase A', 120 * Math.sqrt(3)],
      ['us-120-240-1ph', 'line 1', 240],
    ] as const)
      for (const [reading, states] of [
        [read(on('p'), on('q'), 120), [state(system, line), state(system, 'grounded conductor')]],
        [read(on('p'), on('q'), 120), [state(system, 'grounded conductor'), state(system, line)]],
        [read(on('p'), bar, 120), [state(system, line), null]],
        [read(bar, on('p'), 120), [null, state(system, line)]],
        [read(on('p'), pole(system, line), 0), [state(system, line), null]],
      ] as const) {
        const sight = sightOf(reading, states, both);
        if (sight.kind !== 'volts') throw new Error(sight.kind);
        expect(sight.side).toBeCloseTo(most, 6);
        expect(sight.base).toBeCloseTo(120, 6);
      }
  });
});

describe('the map after readings', () => {
  it('lists the systems likeliest first, whatever order the photo had them in', () => {
    const said: readonly Said[] = [...SPLIT, ...WYE_208];
    const readings = [
      read(on('a'), on('b'), 208, { confirmed: true }),
      read(on('b'), on('c'), 208, { confirmed: true }),
      read(on('a'), ground, 120),
    ];
    for (const list of [said, [...said].reverse()]) {
      const map = mapOf(list);
      const turned = { ...map, systems: map.systems.map((s, k) => ({ ...s, probability: k === 0 ? 0.3 : 0.6 })) };
      const odds = judge(turned, readings, { meter: METER }).map.systems.map((s) => s.probability);
      expect(odds.length).toBeGreaterThan(1);
      expect([...odds].sort((p, q) => q - p)).toEqual(odds);
    }
  });
});

describe('a traveler in a plan', () => {
  it('is expected to show the line voltage or nothing, in each of its positions (a three-way switch)', () => {
    const map = mapOf([
      ...WYE_208,
      { id: 't1', system: 'us-switch-legs', role: 'traveler' },
      { id: 't2', system: 'us-switch-legs', role: 'traveler' },
    ]);
    const own = planChecks(map, [], { meter: METER }).next.filter((c) => c.condition?.startsWith('position'));
    expect(own.length).toBeGreaterThan(3);
    for (const { expected } of own) {
      expect(expected.map((e) => Math.round(e.nominal)).sort((p, q) => p - q)).toEqual([0, 120]);
      for (const { low, high, nominal } of expected) {
        expect(low).toBeLessThanOrEqual(nominal);
        expect(high).toBeGreaterThanOrEqual(nominal);
      }
    }
  });
});
