import { describe, expect, it } from 'vitest';
import type { SiteKnowledge } from '../../src/flow';
import { identify, roleMarginals } from '../../src/identify';
import { strictnessPrior } from '../../src/identify/model/site-habit';
import { conductors, type ReadColor, site } from './make';

const tops = (k: Partial<SiteKnowledge>, ...colors: readonly ReadColor[]) =>
  identify(conductors(...colors), site(k)).assignments.map((a) => roleMarginals(a)[0]!);

describe('what tells the phases of a site', () => {
  it('is not color beyond 0.9 in the United States: NEC 210.5(C)(1) lets tags do it, and no rule gives A, B, C colors', () => {
    const [black, red, blue, white] = tops({}, 'black', 'red', 'blue', 'white');
    for (const line of [black!, red!, blue!]) {
      expect(line.role).toMatch(/^phase/);
      expect(line.probability).toBeLessThanOrEqual(0.9);
      expect(line.probability).toBeGreaterThan(0.75);
    }
    // The neutral's color is a rule (NEC 200.6), so it may go higher.
    expect(white!.probability).toBeGreaterThan(0.9);
  });
  it('nor when the user ties the four to one circuit: that says nothing of the phase letter', () => {
    const groups: SiteKnowledge['groups'] = [{ kind: 'circuit', conductors: ['c1', 'c2', 'c3', 'c4'] }];
    for (const line of tops({ groups }, 'black', 'red', 'blue', 'white').slice(0, 3)) {
      expect(line.probability).toBeLessThanOrEqual(0.9);
    }
  });
  it('twin: it may be when the user vouches for the colors, posts a legend, or gives the pole spaces', () => {
    const systems = ['us-208y120'];
    const legend: SiteKnowledge['legend'] = [
      { system: 'us-208y120', role: 'phase A', color: 'black' },
      { system: 'us-208y120', role: 'phase B', color: 'red' },
      { system: 'us-208y120', role: 'phase C', color: 'blue' },
    ];
    const spaces = { c1: 1, c2: 3, c3: 5 };
    for (const k of [{ phasesBy: 'color' }, { legend }, { spaces }] as const) {
      const [black] = tops({ systems, ...k }, 'black', 'red', 'blue', 'white');
      expect(black!.role).toBe('phase A');
      expect(black!.probability).toBeGreaterThan(0.9);
    }
  });
  it('where tags tell, the letter is open but the system is not', () => {
    const cs = conductors('brown', 'orange', 'yellow', 'gray');
    const map = identify(cs, site({ phasesBy: 'tag' }));
    expect(map.systems[0]).toMatchObject({ system: 'us-480y277' });
    expect(map.systems[0]!.probability).toBeGreaterThan(0.7);
    for (const a of map.assignments.slice(0, 3)) expect(roleMarginals(a)[0]!.probability).toBeLessThan(0.5);
  });
  it('may be color where a rule names the phases: CEC 4-036, BS 7671 table 51', () => {
    expect(strictnessPrior(['ca-208y120'], {}).loose).toBeLessThan(0.05);
    expect(strictnessPrior(['uk-230-400'], {}).loose).toBeLessThan(0.05);
    expect(strictnessPrior(['us-208y120'], {}).loose).toBeGreaterThan(0.1);
  });
  it('is less surely color where the user tied conductors by a tag; twin: not by a circuit', () => {
    const black = (kind: 'tag' | 'circuit') =>
      tops({ groups: [{ kind, conductors: ['c1', 'c2', 'c3', 'c4'] }] }, 'black', 'red', 'blue', 'white')[0]!;
    expect(black('tag').probability).toBeLessThan(black('circuit').probability - 0.05);
    expect(black('tag').role).toBe('phase A');
  });
  it('is not color where one circuit shows its three lines in black: the others grow modest too', () => {
    const groups: SiteKnowledge['groups'] = [{ kind: 'circuit', conductors: ['c1', 'c2', 'c3', 'c4'] }];
    const systems = ['us-208y120'];
    const alike = tops({ groups, systems }, 'black', 'black', 'black', 'white', 'black', 'white');
    const usual = tops({ groups, systems }, 'black', 'red', 'blue', 'white', 'black', 'white');
    expect(usual[4]).toMatchObject({ role: 'phase A' });
    expect(usual[4]!.probability).toBeGreaterThan(0.8);
    expect(alike[4]!.probability).toBeLessThan(0.6);
  });
  it('where all lines are black they are lines of the named system, and which is which stays open', () => {
    const map = identify(conductors('black', 'black', 'black', 'gray'), site({ systems: ['us-480y277'] }));
    const share = (system: string) => map.systems.find((s) => s.system === system)?.probability ?? 0;
    expect(share('us-switch-legs')).toBeLessThan(0.1);
    for (const a of map.assignments.slice(0, 3)) {
      const [top] = roleMarginals(a);
      expect(top!.role).toMatch(/^phase /);
      expect(top!.probability).toBeCloseTo(1 / 3, 1);
    }
    // Four lines and two neutrals: two circuits of a site that has black only, or of phase A alone.
    const six = tops({ systems: ['us-208y120'] }, 'black', 'black', 'black', 'white', 'black', 'white');
    expect(six[0]!.probability).toBeLessThan(0.75);
    // Twin: one red among them, and black is a phase again.
    const one = tops({ systems: ['us-208y120'] }, 'black', 'red', 'black', 'white', 'black', 'white');
    expect(one[0]!.probability).toBeGreaterThan(0.8);
  });
  it.each([undefined, 'color', 'tag'] as const)('gives shares that sum to one (%s)', (phasesBy) => {
    const p = strictnessPrior(['us-208y120'], phasesBy ? { phasesBy } : {});
    expect(p.strict + p.loose + p.alike + p.careless).toBeCloseTo(1, 12);
  });
});
