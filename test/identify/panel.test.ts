import { describe, expect, it } from 'vitest';
import {
  breakerSpaces,
  identify,
  mayShareNeutral,
  panelBalance,
  panelKindOf,
  panelMap,
  panelPole,
  poleRow,
} from '../../src/identify';
import published from '../published/panel-phase-pattern.json';
import { conductors, type ReadColor, site } from './make';

const rule = (id: string) => published.rules.find((r) => r.id === id) as { examples: Record<string, unknown> };
const letter = (role: string): string => role.replace('phase ', '').replace('line 1', 'A').replace('line 2', 'B');

describe('pole pattern (test/published/panel-phase-pattern.json)', () => {
  it.each(Object.entries(rule('us-3ph').examples))('three-phase space %s is %s', (space, phase) => {
    expect(letter(panelPole(Number(space), 'three-phase'))).toBe(phase);
  });
  it.each(Object.entries(rule('us-1ph').examples))('single-phase space %s is %s', (space, line) => {
    expect(letter(panelPole(Number(space), 'single-phase'))).toBe(line);
  });
  it('twin: counting spaces instead of rows breaks the published examples', () => {
    const wrong = (n: number) => 'ABC'[(n - 1) % 3];
    expect(Object.entries(rule('us-3ph').examples).every(([n, phase]) => wrong(Number(n)) === phase)).toBe(false);
  });
  it.each(Object.entries(rule('multipole').examples))('%s takes spaces %j', (name, spaces) => {
    const [, poles, first] = /(\d)-pole at (\d+)/.exec(name)!;
    expect(breakerSpaces(Number(first), Number(poles))).toEqual(spaces);
  });
  it('puts the high leg on B rows: 3, 4, 9, 10, 15, 16 (notes of the same file; NEC 408.3(E)(1))', () => {
    const high = Array.from({ length: 18 }, (_, k) => k + 1).filter(
      (n) => panelPole(n, 'high leg on B') === 'high leg',
    );
    expect(high).toEqual([3, 4, 9, 10, 15, 16]);
    expect(panelPole(1, 'high leg on A')).toBe('high leg');
  });
  it('lets a neutral be shared by n and n + 2 but not by the two sides of one row (derived in the same file)', () => {
    for (const kind of ['three-phase', 'single-phase'] as const) {
      expect(mayShareNeutral([1, 3], kind)).toBe(true);
      expect(mayShareNeutral([1, 2], kind)).toBe(false);
    }
    expect(mayShareNeutral([1, 3, 5], 'three-phase')).toBe(true);
    expect(mayShareNeutral([1, 3, 5], 'single-phase')).toBe(false);
  });
  it.each([0, -1, 1.5, Number.NaN])('refuses space %s', (n) => {
    expect(() => poleRow(n)).toThrow(RangeError);
  });
  it('knows which panel a system feeds', () => {
    expect(panelKindOf('us-480y277')).toBe('three-phase');
    expect(panelKindOf('us-120-240-1ph')).toBe('single-phase');
    expect(panelKindOf('ca-240-120-high-leg')).toBe('high leg on A');
    expect(panelKindOf('us-dc')).toBeNull();
    // UK boards number ways of three poles (panel-phase-pattern uk-boards).
    expect(panelKindOf('uk-230-400')).toBeNull();
    expect(panelKindOf('nothing')).toBeNull();
  });
});

describe('drawn panel', () => {
  const drawn = (colors: readonly ReadColor[], spaces: readonly number[]) => {
    const cs = conductors(...colors);
    const k = site({ systems: ['us-208y120'], spaces: Object.fromEntries(cs.map((c, i) => [c.id, spaces[i]!])) });
    return panelMap('three-phase', 'us-208y120', cs, identify(cs, k), k);
  };
  it('finds nothing where colors follow the pattern', () => {
    const map = drawn(['black', 'red', 'blue', 'black'], [1, 3, 5, 2]);
    expect(map.faults).toEqual([]);
    expect(map.spaces.flatMap((s) => s.conductors.map((c) => c.verdict))).toEqual(Array(4).fill('as expected'));
    expect(map.spaces.map((s) => s.side)).toEqual(['left', 'right', 'left', 'right', 'left']);
  });
  it('finds two swapped phases', () => {
    expect(drawn(['black', 'blue', 'red'], [1, 3, 5]).faults).toEqual([
      { kind: 'swapped', conductors: ['c2', 'c3'], spaces: [3, 5] },
    ]);
  });
  it('calls a board that begins on another phase shifted, not faulty conductor by conductor', () => {
    expect(drawn(['red', 'blue', 'black'], [1, 3, 5]).faults.map((f) => f.kind)).toEqual(['rolled']);
  });
  it('says nothing of a color that is not sure', () => {
    const map = drawn(['black', { red: 0.5, brown: 0.5 }, 'blue'], [1, 3, 5]);
    expect(map.spaces[2]?.conductors[0]?.verdict).toBe('undecided');
  });
  it('finds a phase color repeated on one breaker', () => {
    const cs = conductors('black', 'black', 'blue');
    const k = site({
      systems: ['us-208y120'],
      spaces: { c1: 1, c2: 3, c3: 5 },
      groups: [{ kind: 'breaker', conductors: ['c1', 'c2', 'c3'] }],
    });
    const map = panelMap('three-phase', 'us-208y120', cs, identify(cs, k), k);
    expect(map.faults).toEqual([{ kind: 'repeated', conductors: ['c1', 'c2'], spaces: [1, 3] }]);
  });
  it('puts both circuits of a tandem breaker on the phase of its space', () => {
    const map = drawn(['black', 'black'], [1, 1]);
    expect(map.spaces[0]?.conductors.map((c) => c.verdict)).toEqual(['as expected', 'as expected']);
  });
});

describe('balance', () => {
  it('sums loads by phase and gives the worst deviation from the mean', () => {
    // By hand: A 10 + 20 = 30, B 30, C 0; mean 20; worst deviation 20 / 20.
    expect(panelBalance({ 1: 10, 2: 20, 3: 30 }, 'three-phase')).toEqual({
      amperes: { 'phase A': 30, 'phase B': 30, 'phase C': 0 },
      imbalance: 1,
    });
  });
  it('twin: equal loads are balanced', () => {
    expect(panelBalance({ 1: 10, 3: 10, 5: 10 }, 'three-phase').imbalance).toBe(0);
  });
  it('refuses a negative load', () => {
    expect(() => panelBalance({ 1: -1 }, 'three-phase')).toThrow(RangeError);
  });
});
