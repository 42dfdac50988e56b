import { beforeEach, describe, expect, it } from 'vitest';
import type { Reading, Role } from '../../src/flow';
import type { Sight } from '../../src/verify/likelihood';
import { type Models, modelOf, modelsFor } from '../../src/verify/models';
import { roleInClaimed } from '../../src/verify/same-place';
import { sightOf } from '../../src/verify/sight';
import type { State } from '../../src/verify/state';
import { FAULT_PRIOR, statesOf } from '../../src/verify/states';
import { type VariantCore, variantsOf } from '../../src/verify/variant';
import { bar, ground, mapOf, on, pole, read, type Said, WYE_208 } from './fixtures';

const SPLIT: readonly Said[] = [
  { id: 'x', system: 'us-120-240-1ph', role: 'line 1' },
  { id: 'y', system: 'us-120-240-1ph', role: 'line 2' },
  { id: 'n', system: 'us-120-240-1ph', role: 'grounded conductor' },
];
const variantOf = (said: readonly Said[], wanted: readonly string[]): VariantCore => {
  const map = mapOf(said);
  const found = variantsOf(map, modelsFor(map)).find(
    (v) => v.systems.length === wanted.length && v.systems.every((s) => wanted.includes(s.id)),
  );
  if (!found) throw new Error(`no variant of ${wanted.join(', ')}`);
  return found;
};
let WYE: VariantCore;
beforeEach(() => {
  WYE = variantOf(WYE_208, ['us-208y120']);
});
const stateIn = (variant: VariantCore, role: Role, fault: State['fault'] = null, system?: string): State => {
  const found = variant.states.find(
    (s) => s.role === role && s.fault === fault && (system === undefined || s.system === system),
  );
  if (!found) throw new Error(`no state ${role}`);
  return found;
};
const nominal = (sight: Sight): number => (sight.kind === 'volts' ? sight.nominal : Number.NaN);
const AC = (from: Reading['from'], to: Reading['to'], rest: Partial<Reading> = {}): Reading => read(from, to, 1, rest);

describe('a meter between two conductors of a wye', () => {
  const see = (a: Role, b: Role) => sightOf(AC(on('p'), on('q')), [stateIn(WYE, a), stateIn(WYE, b)], WYE);

  it('sees the root of three times 120 between phases, 120 to neutral and ground (NEMA and NEC 220.5: 208Y/120)', () => {
    expect(nominal(see('phase A', 'phase B'))).toBeCloseTo(120 * Math.sqrt(3), 9);
    expect(nominal(see('phase C', 'grounded conductor'))).toBeCloseTo(120, 9);
    expect(nominal(see('phase C', 'equipment grounding conductor'))).toBeCloseTo(120, 9);
    expect(nominal(see('grounded conductor', 'equipment grounding conductor'))).toBeCloseTo(0, 9);
  });

  it('sees 0 at its own pole and 208 at another, 120 at the bar', () => {
    const a = stateIn(WYE, 'phase A');
    const at = (role: Role) => nominal(sightOf(AC(on('p'), pole('us-208y120', role)), [a, null], WYE));
    expect(at('phase A')).toBeCloseTo(0, 9);
    expect(at('phase B')).toBeCloseTo(120 * Math.sqrt(3), 9);
    expect(nominal(sightOf(AC(on('p'), bar), [a, null], WYE))).toBeCloseTo(120, 9);
    expect(nominal(sightOf(AC(on('p'), ground), [a, null], WYE))).toBeCloseTo(120, 9);
  });

  it('takes a pole that is marked in terms of another system by its place in the order', () => {
    const a = stateIn(WYE, 'phase A');
    const at = (role: Role) => sightOf(AC(on('p'), pole('us-480y277', role)), [a, null], WYE);
    expect(nominal(at('phase A'))).toBeCloseTo(0, 9);
    expect(nominal(at('phase C'))).toBeCloseTo(120 * Math.sqrt(3), 9);
    const split = sightOf(AC(on('p'), pole('us-120-240-1ph', 'line 2')), [a, null], WYE);
    expect(nominal(split)).toBeCloseTo(120 * Math.sqrt(3), 9);
    // Twin: a role that is no pole of that system stands nowhere.
    expect(sightOf(AC(on('p'), pole('us-480y277', 'line 1')), [a, null], WYE).kind).toBe('blind');
  });

  it('sees nothing steady on a loose end, and a DC range nothing of AC', () => {
    const loose = stateIn(WYE, 'phase A', 'disconnected');
    expect(sightOf(AC(on('p'), ground), [loose, null], WYE).kind).toBe('open');
    const direct = AC(on('p'), ground, { function: 'DC volts' });
    expect(nominal(sightOf(direct, [stateIn(WYE, 'phase A'), null], WYE))).toBe(0);
  });

  it('tells the order of the phases by the way they turn, and nothing where one of them is earth', () => {
    const turn = (roles: readonly Role[]) =>
      sightOf(
        AC(on('p'), on('q'), { function: 'phase rotation', third: on('r') }),
        roles.map((r) => stateIn(WYE, r)),
        WYE,
      );
    expect(turn(['phase A', 'phase B', 'phase C'])).toEqual({ kind: 'rotation', order: 'ABC' });
    expect(turn(['phase B', 'phase C', 'phase A'])).toEqual({ kind: 'rotation', order: 'ABC' });
    expect(turn(['phase C', 'phase B', 'phase A'])).toEqual({ kind: 'rotation', order: 'CBA' });
    expect(turn(['phase A', 'phase A', 'phase C']).kind).toBe('blind');
  });
});

describe('a meter between two supplies', () => {
  let both: VariantCore;
  beforeEach(() => {
    both = variantOf([...WYE_208, ...SPLIT], ['us-208y120', 'us-120-240-1ph']);
  });
  const between = (a: State, b: State): Sight => sightOf(AC(on('p'), on('q')), [a, b], both);

  it('sees anything from the difference to the sum of both: their phases are not tied to each other', () => {
    const sight = between(
      stateIn(both, 'phase A', null, 'us-208y120'),
      stateIn(both, 'line 1', null, 'us-120-240-1ph'),
    );
    expect(sight.kind).toBe('angle');
    if (sight.kind !== 'angle') return;
    expect(sight.low).toBeCloseTo(0, 9);
    expect(sight.high).toBeCloseTo(240, 9);
  });

  it('sees the volts of the line where the other side is at earth, whichever supply that belongs to', () => {
    const line = stateIn(both, 'phase A', null, 'us-208y120');
    const neutral = stateIn(both, 'grounded conductor', null, 'us-120-240-1ph');
    expect(nominal(between(line, neutral))).toBeCloseTo(120, 9);
    expect(nominal(between(neutral, line))).toBeCloseTo(120, 9);
  });
});

describe('what can be wrong with a conductor', () => {
  let wye: State[];
  beforeEach(() => {
    wye = statesOf(modelOf('us-208y120')!);
  });
  const of = (role: Role, fault: State['fault']) => wye.filter((s) => s.role === role && s.fault === fault);
  const sum = (states: readonly State[]): number => states.reduce((total, s) => total + s.weight, 0);
  const at = (s: State) => s.potential(undefined);
  const size = (s: State): number => {
    const p = at(s);
    return typeof p === 'string' ? Number.NaN : Math.hypot(p.re, p.im);
  };

  it('is listed with all places of one fault sharing its odds', () => {
    expect(sum(of('grounded conductor', 'open neutral'))).toBeCloseTo(FAULT_PRIOR['open neutral'], 12);
    expect(sum(of('grounded conductor', 'shared neutral'))).toBeCloseTo(FAULT_PRIOR['shared neutral'], 12);
    expect(sum(of('phase B', 'lost phase, fed back'))).toBeCloseTo(FAULT_PRIOR['lost phase, fed back'], 12);
    expect(of('phase B', 'open neutral')).toEqual([]);
    expect(of('equipment grounding conductor', 'lost phase, fed back')).toEqual([]);
  });

  it('puts an open neutral inside the triangle of its lines (superposition of linear loads)', () => {
    for (const state of of('grounded conductor', 'open neutral')) {
      expect(size(state)).toBeGreaterThan(0);
      expect(size(state)).toBeLessThan(120);
    }
  });

  it('puts that of two lines on the line between them, and of one line on its way to it', () => {
    const split = statesOf(modelOf('us-120-240-1ph')!).filter((s) => s.fault === 'open neutral');
    expect(split).toHaveLength(10);
    for (const state of split) {
      const p = at(state);
      if (typeof p === 'string') throw new Error('a floating neutral stands somewhere');
      expect(Math.abs(p.re)).toBeLessThan(120);
      expect(p.im).toBeCloseTo(0, 9);
    }
    // One line and its neutral: 230 V as IEC 60038 has it.
    const floating = statesOf(modelOf('iec-230-1ph')!).filter((s) => s.fault === 'open neutral');
    expect(floating.map((s) => size(s) / 230)).toEqual([expect.closeTo(0.5, 6), expect.closeTo(0.9, 6)]);
  });

  it('lifts a shared neutral by a tenth of a line or so, and feeds a lost phase back at less than its own', () => {
    for (const state of of('grounded conductor', 'shared neutral')) {
      expect(size(state)).toBeGreaterThan(5);
      expect(size(state)).toBeLessThan(20);
    }
    for (const state of of('phase A', 'lost phase, fed back')) expect(size(state)).toBeLessThan(0.8 * 120);
    expect(of('phase A', 'lost phase, fed back')).toHaveLength(9);
  });

  it('lets a switch leg be live with its switch on, a traveler in one of two positions', () => {
    const map = mapOf([...WYE_208, { id: 's', system: 'us-switch-legs', role: 'switch leg' }]);
    const legs = statesOf(modelsFor(map)('us-switch-legs')!);
    const leg = legs.find((s) => s.role === 'switch leg')!;
    expect(leg.potential('switch off')).toBe('open');
    for (const condition of ['switch on', 'switch on, both switches moved', undefined] as const)
      expect(leg.potential(condition)).toMatchObject({ re: expect.closeTo(120, 9) });
    const travelers = legs.filter((s) => s.role === 'traveler');
    expect(travelers).toHaveLength(2);
    const live = (position: 'position 1' | 'position 2') => travelers.map((s) => s.potential(position) !== 'open');
    expect(live('position 1')).toEqual([true, false]);
    expect(live('position 2')).toEqual([false, true]);
  });

  it('bonds the grounding conductor alone, and not once it is loose', () => {
    expect(wye.filter((s) => s.bonded).map((s) => [s.role, s.fault])).toEqual([
      ['equipment grounding conductor', null],
    ]);
  });
});

describe('what the place of a conductor is called in another system', () => {
  const map = mapOf([...WYE_208, ...SPLIT, { id: 'h', system: 'us-240-120-high-leg', role: 'high leg' }]);
  let models: Models;
  beforeEach(() => {
    models = modelsFor(map);
  });
  const claim = (system: string) => ({ conductor: 'p', system, role: 'line 1' as const, probability: 0.9 });
  const called = (state: Pick<State, 'system' | 'role'>, system: string): Role | null =>
    roleInClaimed(claim(system), { ...stateIn(WYE, 'phase A'), ...state }, models);

  it('is its own name in its own system', () => {
    expect(called({ system: 'us-208y120', role: 'phase C' }, 'us-208y120')).toBe('phase C');
  });

  it('is the neutral or the grounding conductor where the other has one', () => {
    expect(called({ system: 'us-208y120', role: 'grounded conductor' }, 'us-120-240-1ph')).toBe('grounded conductor');
  });

  it('is the line that stands at the same volts and angle, or nothing', () => {
    // Phase A of 208Y/120 and line 1 of 120/240 both stand at 120 V, angle 0; phase B of the wye has no counterpart.
    expect(called({ system: 'us-208y120', role: 'phase A' }, 'us-120-240-1ph')).toBe('line 1');
    expect(called({ system: 'us-208y120', role: 'phase B' }, 'us-120-240-1ph')).toBeNull();
    expect(called({ system: 'us-480y277', role: 'phase A' }, 'us-208y120')).toBeNull();
  });

  it('is a line of 120/240 V for the outer phases of a high-leg delta, and nothing for its high leg (208 V to neutral)', () => {
    const high = 'us-240-120-high-leg';
    expect(called({ system: high, role: 'phase A' }, 'us-120-240-1ph')).toBe('line 1');
    expect(called({ system: high, role: 'phase C' }, 'us-120-240-1ph')).toBe('line 2');
    expect(called({ system: high, role: 'high leg' }, 'us-120-240-1ph')).toBeNull();
  });
});
