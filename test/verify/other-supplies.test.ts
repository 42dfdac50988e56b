import { describe, expect, it } from 'vitest';
import type { PhaseMap, Reading, TestPoint } from '../../src/flow';
import { type Belief, expectation } from '../../src/verify/agreement';
import { direct, isolated } from '../../src/verify/build-model';
import { claimsOf } from '../../src/verify/claim';
import { logLikelihood } from '../../src/verify/likelihood';
import { modelsFor } from '../../src/verify/models';
import { bandOptions } from '../../src/verify/options';
import { volts } from '../../src/verify/phasor';
import { sightOf } from '../../src/verify/sight';
import { variantsOf } from '../../src/verify/variant';
import { bar, ground, mapOf, on, pole, read, type Said, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const believe = (map: PhaseMap, posted: Readonly<Record<string, number>> = {}): Belief => ({
  claims: new Map(claimsOf(map).map((c) => [c.conductor, c])),
  models: modelsFor(map, posted),
  band: bandOptions({ meter: METER }),
});

describe('supplies of other shapes', () => {
  it('three isolated lines stand equally far from one another (geometry of an equilateral triangle)', () => {
    const lines = isolated('us-isolated-power', 208, 3).points.filter((p) => p.role.startsWith('isolated'));
    expect(lines).toHaveLength(3);
    for (const [i, a] of lines.entries())
      for (const b of lines.slice(i + 1)) expect(volts(a.at, b.at)).toBeCloseTo(208, 9);
    // Twin: two lines make a single pair, half a turn apart.
    const two = isolated('us-isolated-power', 208, 2).points.filter((p) => p.role.startsWith('isolated'));
    expect(two.map((p) => Math.hypot(p.at.re, p.at.im))).toEqual([104, 104]);
  });

  it('a third isolated line is looked for only where one is claimed', () => {
    const said = (n: number): Said[] =>
      (['isolated conductor 1', 'isolated conductor 2', 'isolated conductor 3'] as const)
        .slice(0, n)
        .map((role, i) => ({ id: `i${i}`, system: 'us-isolated-power', role }));
    const lines = (n: number) =>
      modelsFor(mapOf(said(n)))('us-isolated-power')?.points.filter((p) => p.role.startsWith('isolated')).length;
    expect([lines(2), lines(3)]).toEqual([2, 3]);
  });

  it('DC with a middle conductor has half the volts to it, with signs, and is bonded there', () => {
    const model = direct('iec-dc', 440, true);
    const at = (role: string) => model.points.find((p) => p.role === role)?.at.re ?? Number.NaN;
    expect([at('positive'), at('grounded conductor'), at('negative')]).toEqual([220, 0, -220]);
    expect(model.ground).toBe('bonded');
    // Twin: without it nothing is bonded.
    const plain = direct('us-dc', 440, false);
    expect(plain.ground).toBe('floating');
    expect(plain.points.some((p) => p.role === 'grounded conductor')).toBe(false);
  });
});

describe('phase rotation as the claims expect it', () => {
  const map = mapOf([
    ...WYE_208,
    { id: 'x', system: 'us-120-240-1ph', role: 'line 1' },
    { id: 'y', system: 'us-120-240-1ph', role: 'line 2' },
    { id: 'z', system: 'us-120-240-1ph', role: 'grounded conductor' },
  ]);
  const belief = believe(map);
  const turning = (from: TestPoint, to: TestPoint, third?: TestPoint) =>
    expectation({ from, to, function: 'phase rotation', ...(third ? { third } : {}) }, belief)?.rotation;

  it('is ABC in the order of the letters, whichever comes first, and CBA with two leads exchanged', () => {
    const [a, b, c] = [on('a'), on('b'), on('c')];
    for (const [p, q, r] of [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ] as const) {
      expect(turning(p, q, r)).toBe('ABC');
      expect(turning(q, p, r)).toBe('CBA');
    }
    expect(turning(pole('us-208y120', 'phase A'), b, c)).toBe('ABC');
  });

  it('is nothing without a third lead, across systems, where nothing rotates, or with two leads on one place', () => {
    expect(turning(on('a'), on('b'))).toBeUndefined();
    expect(turning(on('a'), on('b'), on('x'))).toBeUndefined();
    expect(turning(on('x'), on('y'), on('z'))).toBeUndefined();
    expect(turning(on('a'), on('b'), on('b'))).toBeUndefined();
    expect(turning(on('a'), on('b'), ground)).toBeUndefined();
    expect(turning(on('a'), on('b'), on('nobody'))).toBeUndefined();
  });
});

describe('between two bonded systems, whose angle to one another nobody knows', () => {
  const map = mapOf([
    ...WYE_208,
    { id: 'x', system: 'us-480y277', role: 'phase A' },
    { id: 'd', system: 'us-480-delta', role: 'phase A' },
    { id: 'p', system: 'us-dc', role: 'positive' },
  ]);
  const across = (to: string, probing: Partial<Reading> = {}) =>
    expectation({ from: on('a'), to: on(to), function: 'AC volts', ...probing }, believe(map, { 'us-dc': 125 }));

  it('anything from the difference to the sum may be read, a tenth on both sides (triangle inequality)', () => {
    const found = across('x');
    expect(found?.low).toBeLessThanOrEqual(0.9 * (480 / Math.sqrt(3) - 120));
    expect(found?.high).toBeGreaterThanOrEqual(1.1 * (480 / Math.sqrt(3) + 120));
    expect(found?.high).toBeLessThan(1.3 * (480 / Math.sqrt(3) + 120));
  });

  it('twin: nothing is expected against a floating system or DC', () => {
    expect(across('d')).toBeNull();
    expect(across('p')).toBeNull();
  });

  it('is seen so when worlds of two systems are weighed: 300 V is likely, 700 V is not', () => {
    const two = mapOf([...WYE_208, { id: 'x', system: 'us-480y277', role: 'phase A' }]);
    const variant = variantsOf(two, modelsFor(two)).find((v) => v.systems.length === 2);
    if (!variant) throw new Error('both systems are on the map');
    const state = (system: string) => {
      const found = variant.states.find((s) => s.system === system && s.role === 'phase A' && s.fault === null);
      if (!found) throw new Error(`no phase A in ${system}`);
      return found;
    };
    const states = [state('us-208y120'), state('us-480y277')];
    const sight = sightOf(read(on('a'), on('x'), 300), states, variant);
    expect(sight.kind).toBe('angle');
    const at = (value: number): number =>
      Math.max(...logLikelihood(read(on('a'), on('x'), value), sight, 9_000_001, METER));
    expect(at(300)).toBeGreaterThan(at(700) + 2);
    expect(at(300)).toBeGreaterThan(at(60) + 2);
    // Twin: against the neutral, which is bonded in both, the voltage is known.
    expect(sightOf(read(on('a'), bar, 120), [state('us-208y120'), null], variant).kind).toBe('volts');
  });
});
