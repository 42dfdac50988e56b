import { describe, expect, it } from 'vitest';
import type { ColorName, NamedConductor, PhaseMap, Role, SiteKnowledge } from '../../src/flow';
import { CONVENTIONS, identify, roleMarginals, SYSTEMS } from '../../src/identify';
import { cases, some } from '../cases';
import { conductor, conductors, site } from './make';
import { type Random, random } from './random';

const PALETTE = ['black', 'red', 'blue', 'white', 'green', 'brown', 'orange', 'yellow', 'gray'] as const;

function scene(r: Random, most = 9): NamedConductor[] {
  return Array.from({ length: 1 + r.below(most) }, (_, i) => {
    const first = r.pick(PALETTE);
    const second = r.pick(PALETTE.filter((c) => c !== first));
    const p = 0.5 + 0.5 * r.next();
    return conductor(`c${i}`, { [first]: p, [second]: 1 - p });
  });
}

const of = (map: PhaseMap, id: string, role: Role): number =>
  roleMarginals(map.assignments.find((a) => a.conductor === id)!).find((m) => m.role === role)?.probability ?? 0;
const systemOf = (map: PhaseMap, id: string): number => map.systems.find((s) => s.system === id)?.probability ?? 0;

describe('properties', () => {
  it('gives probabilities: none negative, none above 1, each conductor below 1 in all', () => {
    const r = random(1);
    for (let k = 0; k < cases(8); k++) {
      const map = identify(scene(r), site());
      for (const a of map.assignments) {
        const sum = a.roles.reduce((s, x) => s + x.probability, 0);
        expect(sum).toBeLessThan(1);
        expect(sum).toBeGreaterThan(0.9);
        for (const x of a.roles) expect(x.probability).toBeGreaterThan(0);
        for (let i = 1; i < a.roles.length; i++) {
          expect(a.roles[i]!.probability).toBeLessThanOrEqual(a.roles[i - 1]!.probability);
        }
      }
      for (const s of map.systems) expect(s.probability).toBeLessThanOrEqual(1 + 1e-12);
    }
  });

  it('does not care for the order of the conductors, bit for bit', () => {
    const r = random(2);
    for (let k = 0; k < cases(4); k++) {
      const cs = scene(r);
      const back = [...cs].reverse();
      const a = identify(cs, site());
      const b = identify(back, site());
      expect([...b.assignments].reverse()).toEqual(a.assignments);
      expect(b.systems).toEqual(a.systems);
      expect(b.findings).toEqual(a.findings);
      expect(b.eliminated).toEqual(a.eliminated);
    }
  });

  it('does not care for the names of the conductors', () => {
    const cs = conductors('black', 'red', 'blue', 'white');
    const renamed = cs.map((c, i) => ({ ...c, id: `z${9 - i}` }));
    const a = identify(cs, site());
    const b = identify(renamed, site());
    a.assignments.forEach((x, i) => {
      x.roles.forEach((role, k) => {
        expect(b.assignments[i]!.roles[k]!.probability).toBeCloseTo(role.probability, 12);
      });
    });
  });

  it('more evidence for the truth never lowers it', () => {
    const r = random(3);
    const truth: readonly [ColorName, Role][] = [
      ['black', 'phase A'],
      ['red', 'phase B'],
      ['blue', 'phase C'],
      ['white', 'grounded conductor'],
    ];
    for (let k = 0; k < cases(8); k++) {
      const i = r.below(truth.length);
      const other = r.pick(PALETTE.filter((c) => !truth.some(([t]) => t === c)));
      let last = 0;
      for (const p of [0.3, 0.5, 0.7, 0.9, 1]) {
        const cs = truth.map(([c], n) => conductor(`c${n}`, n === i ? { [c]: p, [other]: 1 - p } : c));
        const now = of(identify(cs, site({ systems: ['us-208y120'] })), `c${i}`, truth[i]![1]);
        expect(now).toBeGreaterThanOrEqual(last - 1e-9);
        last = now;
      }
    }
  });

  it('more evidence for the truth never lowers it: whole circuits, other systems, every conductor, a stripe, a space', () => {
    const circuits: readonly (readonly [string, readonly (readonly [ColorName, Role])[]])[] = [
      [
        'us-480y277',
        [
          ['brown', 'phase A'],
          ['orange', 'phase B'],
          ['yellow', 'phase C'],
          ['gray', 'grounded conductor'],
        ],
      ],
      [
        'us-240-120-high-leg',
        [
          ['black', 'phase A'],
          ['orange', 'high leg'],
          ['blue', 'phase C'],
          ['white', 'grounded conductor'],
        ],
      ],
      [
        'us-120-240-1ph',
        [
          ['black', 'line 1'],
          ['red', 'line 2'],
          ['white', 'grounded conductor'],
        ],
      ],
    ];
    for (const [system, truth] of some(circuits))
      for (const [i, [, role]] of truth.entries())
        for (const other of ['violet', 'pink'] as const) {
          let last = 0;
          for (const p of [0.4, 0.7, 1]) {
            const cs = truth.map(([c], n) => conductor(`c${n}`, n === i ? { [c]: p, [other]: 1 - p } : c));
            const now = of(identify(cs, site({ systems: [system] })), `c${i}`, role);
            expect(now, `${system} ${role} ${p}`).toBeGreaterThanOrEqual(last - 1e-9);
            last = now;
          }
        }
    // Naming the system that is there, or the space it lands on, never lowers what it is.
    const cs = conductors('black', 'red', 'blue', 'white', 'green');
    const plain = of(identify(cs, site()), 'c2', 'phase B');
    const named = of(identify(cs, site({ systems: ['us-208y120'] })), 'c2', 'phase B');
    const landed = of(identify(cs, site({ systems: ['us-208y120'], spaces: { c2: 3 } })), 'c2', 'phase B');
    expect(named).toBeGreaterThanOrEqual(plain - 1e-9);
    expect(landed).toBeGreaterThanOrEqual(named - 1e-9);
    // Twin: the space of another pole does lower it.
    expect(of(identify(cs, site({ systems: ['us-208y120'], spaces: { c2: 5 } })), 'c2', 'phase B')).toBeLessThan(named);
  });

  it('whichever conductor of a circuit is missing, no system comes up that the rest does not speak for', () => {
    const circuits: readonly (readonly ColorName[])[] = [
      ['black', 'red', 'blue', 'white', 'green'],
      ['brown', 'orange', 'yellow', 'gray', 'green'],
      ['black', 'orange', 'blue', 'white', 'green'],
      ['brown', 'violet', 'yellow', 'gray', 'green'],
    ];
    // By the published lines alone: a system that comes up has a role for most of the colors that are left.
    const has = (system: string, color: ColorName): boolean =>
      CONVENTIONS.some((c) => c.system === system && c.looks.some((l) => l.color === color && !l.stripe));
    const odd = (colors: readonly ColorName[]): string[] =>
      identify(conductors(...colors), site())
        .systems.filter((s) => s.probability >= 0.1 && SYSTEMS[s.system]?.kind !== 'auxiliary')
        .map((s) => s.system)
        .filter((id) => colors.filter((c) => has(id, c)).length <= colors.length / 2);
    for (const colors of some(circuits))
      for (const gone of colors) expect(odd(colors.filter((c) => c !== gone)), `${colors} less ${gone}`).toEqual([]);
    // Twin: a conductor of another system among them brings that system in, and the check sees it.
    expect(odd(['black', 'red', 'blue', 'black', 'white', 'brown', 'gray'])).toContain('us-480y277');
  });

  it('removing a conductor never invents a system', () => {
    const cs = conductors('black', 'red', 'blue', 'white', 'green');
    const whole = identify(cs, site());
    for (const c of cs) {
      const less = identify(
        cs.filter((o) => o !== c),
        site(),
      );
      for (const id of ['us-480y277', 'us-480-delta', 'us-isolated-power']) {
        expect(systemOf(less, id), `${id} without ${c.id}`).toBeLessThan(0.05);
        expect(systemOf(whole, id)).toBeLessThan(0.05);
      }
    }
  });

  it('a flatter reading never makes its own role surer', () => {
    const sure = identify(conductors('black', 'red', 'blue', 'white'), site());
    for (const role of ['phase A', 'phase B', 'phase C', 'grounded conductor'] as const) {
      const i = ['phase A', 'phase B', 'phase C', 'grounded conductor'].indexOf(role);
      const colors: ColorName[] = ['black', 'red', 'blue', 'white'];
      const flat = colors.map((c, n) =>
        conductor(`c${n + 1}`, n === i ? Object.fromEntries(PALETTE.map((x) => [x, 1 / 9])) : c),
      );
      expect(of(identify(flat, site()), `c${i + 1}`, role)).toBeLessThan(of(sure, `c${i + 1}`, role));
    }
  });

  it("takes the user's word over the reading", () => {
    const wrong = conductors('black', 'brown', 'blue', 'white');
    const said = wrong.map((c) => (c.id === 'c2' ? { ...c, userWord: { name: 'red' as const, by: 'x', at: '' } } : c));
    const map = identify(said, site());
    const plain = identify(conductors('black', 'red', 'blue', 'white'), site());
    expect(of(map, 'c2', 'phase B')).toBeGreaterThan(0.85);
    expect(of(map, 'c2', 'phase B')).toBeCloseTo(of(plain, 'c2', 'phase B'), 1);
    expect(map.assignments[1]!.because.map((b) => b.code)).toContain('identify.because.word');
  });

  it('lets the site legend outrank habit', () => {
    const legend: SiteKnowledge['legend'] = [
      { system: 'us-208y120', role: 'phase A', color: 'red' },
      { system: 'us-208y120', role: 'phase B', color: 'black' },
      { system: 'us-208y120', role: 'phase C', color: 'blue' },
    ];
    const cs = conductors('black', 'red', 'blue', 'white');
    expect(of(identify(cs, site({ legend })), 'c1', 'phase B')).toBeGreaterThan(0.85);
    expect(of(identify(cs, site()), 'c1', 'phase B')).toBeLessThan(0.1);
  });

  it('keeps to the systems that the user named, and says so when the colors do not fit', () => {
    const cs = conductors('brown', 'orange', 'yellow', 'gray');
    const map = identify(cs, site({ systems: ['us-208y120'] }));
    expect(systemOf(map, 'us-480y277')).toBe(0);
    expect(map.findings.map((f) => f.code)).toContain('named-system-misfits');
    const fits = identify(cs, site({ systems: ['us-480y277'] }));
    expect(fits.findings.map((f) => f.code)).not.toContain('named-system-misfits');
  });

  it('a pole space pulls an ambiguous conductor to its phase', () => {
    const cs = conductors({ black: 0.5, blue: 0.5 }, 'red');
    const at = (space: number) =>
      of(identify(cs, site({ systems: ['us-208y120'], spaces: { c1: space, c2: 3 } })), 'c1', 'phase C');
    expect(at(5)).toBeGreaterThan(0.8);
    expect(at(1)).toBeLessThan(0.2);
  });

  it('one circuit has each role once: the unsure third of three is the one left over', () => {
    const cs = conductors('black', 'red', { blue: 0.34, black: 0.33, red: 0.33 });
    const groups: SiteKnowledge['groups'] = [{ kind: 'circuit', conductors: ['c1', 'c2', 'c3'] }];
    expect(of(identify(cs, site({ systems: ['us-208y120'], groups })), 'c3', 'phase C')).toBeGreaterThan(0.7);
  });

  it('bears empty and odd input', () => {
    expect(identify([], site())).toEqual({ systems: [], assignments: [], eliminated: [], findings: [] });
    const odd = [
      conductor('a', { red: Number.NaN }),
      conductor('b', { red: -1, blue: 5 }, { presence: 0, coveringConfidence: 7 }),
    ];
    const map = identify(
      odd,
      site({ spaces: { a: -3, b: 0.5 }, systems: ['nonsense'], groups: [{ kind: 'tag', conductors: ['x', 'a'] }] }),
    );
    for (const a of map.assignments) for (const x of a.roles) expect(Number.isFinite(x.probability)).toBe(true);
    expect(map.findings.map((f) => f.code)).toContain('unknown-system');
    expect(() => identify([conductor('a', 'red'), conductor('a', 'blue')], site())).toThrow(RangeError);
    expect(() => identify(conductors(...Array.from({ length: 501 }, () => 'red' as const)), site())).toThrow(
      RangeError,
    );
    const most = identify(conductors(...Array.from({ length: 500 }, () => 'red' as const)), site());
    expect(most.assignments.every((a) => Number.isFinite(a.roles[0]?.probability))).toBe(true);
  });

  it('gives at most three reasons, at least one, for every conductor', () => {
    const map = identify(scene(random(9)), site());
    for (const a of map.assignments) {
      expect(a.because.length).toBeGreaterThan(0);
      expect(a.because.length).toBeLessThanOrEqual(3);
    }
  });

  it('says why a system is out: not 480Y/277, because blue is present', () => {
    const map = identify(conductors('black', 'red', 'blue', 'white'), site());
    const out = map.eliminated.find((e) => e.system === 'us-480y277');
    expect(out?.why.code).toMatch(/^identify\.eliminated\.present/);
    expect(Object.values(out?.why.values ?? {})).toContain('blue');
    expect(map.eliminated.map((e) => e.system)).not.toContain('us-208y120');
  });
});
