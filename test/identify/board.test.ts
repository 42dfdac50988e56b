import { describe, expect, it } from 'vitest';
import type { SiteLegendEntry } from '../../src/flow';
import { breakerSpaces, identify, legendFindings, panelBalance, panelMap } from '../../src/identify';
import { roleByColor } from '../../src/identify/panel/observed';
import { conductor, conductors, site } from './make';

describe('what a color stands for in a system', () => {
  const legend: readonly SiteLegendEntry[] = [
    { system: 'us-208y120', role: 'phase A', color: 'violet' },
    { system: 'us-208y120', role: 'grounded conductor', color: 'red' },
    { system: 'us-480y277', role: 'phase B', color: 'violet' },
  ];
  const by = (color: 'violet' | 'red' | 'black', own: readonly SiteLegendEntry[] = legend) =>
    roleByColor('us-208y120', own.length > 0 ? 'site legend' : 'habit', color, own);

  it('a posted legend outranks habit, for lines of that system only', () => {
    expect(by('violet')).toBe('phase A');
    expect(by('black')).toBe(by('black', []));
    expect(by('red')).toBe(by('red', []));
    // Twin: by habit violet stands for no line of 208Y/120.
    expect(by('violet', [])).toBeNull();
  });

  it('a legend that gives one color to two lines decides nothing', () => {
    expect(by('violet', [...legend, { system: 'us-208y120', role: 'phase C', color: 'violet' }])).toBeNull();
  });
});

describe('a board', () => {
  const spaces = { c1: 1, c2: 3, c3: 5 };

  it('leaves out conductors on no space, and those of which nothing was made out', () => {
    const cs = conductors('black', 'red', 'blue', 'black');
    const k = site({ systems: ['us-208y120'], spaces });
    const map = panelMap('three-phase', 'us-208y120', cs, { assignments: identify(cs, k).assignments.slice(1) }, k);
    expect(map.spaces.flatMap((s) => s.conductors.map((c) => c.id))).toEqual(['c2', 'c3']);
  });

  it('draws as many spaces as asked for, and more where a conductor lies beyond', () => {
    const cs = conductors('black');
    const k = site({ systems: ['us-208y120'], spaces: { c1: 7 } });
    const drawn = (count: number) => panelMap('three-phase', 'us-208y120', cs, identify(cs, k), k, count).spaces.length;
    expect([drawn(0), drawn(12)]).toEqual([7, 12]);
  });

  it('looks for a repeated color on breakers only, and only where one is repeated', () => {
    const cs = conductors('black', 'black', 'blue');
    const faults = (kind: 'breaker' | 'cable', list = cs) => {
      const k = site({ systems: ['us-208y120'], spaces, groups: [{ kind, conductors: ['c1', 'c2', 'c3'] }] });
      return panelMap('three-phase', 'us-208y120', list, identify(list, k), k).faults.map((f) => f.kind);
    };
    expect(faults('breaker')).toEqual(['repeated']);
    expect(faults('cable')).toEqual([]);
    // Swapped, but every color once.
    expect(faults('breaker', conductors('black', 'blue', 'red'))).toEqual(['swapped']);
  });

  it('pairs the nearest of two that could be swapped with it', () => {
    // Blue on a B space; red on the C spaces 2 and 4 rows away.
    const cs = [conductor('c1', 'blue'), conductor('c2', 'red'), conductor('c3', 'red'), conductor('c4', 'black')];
    const k = site({ systems: ['us-208y120'], spaces: { c1: 3, c2: 5, c3: 11, c4: 1 } });
    const map = panelMap('three-phase', 'us-208y120', cs, identify(cs, k), k);
    expect(map.faults.filter((f) => f.kind === 'swapped')).toEqual([
      { kind: 'swapped', conductors: ['c1', 'c2'], spaces: [3, 5] },
    ]);
  });

  it('names the rule of its country (NEC 408.3(E) or the Canadian rule 4-036)', () => {
    const refs = (jurisdiction: 'US' | 'CA', system: string) => {
      const k = site({ jurisdiction, systems: [system], spaces });
      return identify(conductors('black', 'blue', 'red'), k)
        .findings.filter((f) => f.code.startsWith('panel-'))
        .map((f) => f.rule);
    };
    const [american, canadian] = [refs('US', 'us-208y120'), refs('CA', 'ca-208y120')];
    expect(american.length).toBeGreaterThan(0);
    expect(canadian).not.toEqual(american);
  });

  it('without load is balanced', () => {
    expect(panelBalance({}, 'single-phase')).toEqual({ amperes: { 'line 1': 0, 'line 2': 0 }, imbalance: 0 });
  });

  it.each([0, 4, 1.5, Number.NaN])('has no breaker of %s poles', (poles) => {
    expect(() => breakerSpaces(1, poles)).toThrow(RangeError);
  });
});

describe('a posted legend', () => {
  const codes = (legend: readonly SiteLegendEntry[], jurisdiction: 'US' | 'IEC' = 'US') =>
    legendFindings(legend, jurisdiction).map((f) => f.code);
  const green: SiteLegendEntry = { system: 'us-208y120', role: 'phase A', color: 'green' };

  it('may give green to the grounding conductor and anything to control', () => {
    expect(codes([{ ...green, role: 'equipment grounding conductor' }])).toEqual([]);
    expect(codes([{ ...green, role: 'control' }])).toEqual([]);
    // Twin: to a line it may not.
    expect(codes([green])).toEqual(['legend-green']);
  });

  it('is told each fault once, however often it stands there', () => {
    expect(codes([green, green])).toEqual(['legend-green']);
  });

  it('is not measured by American rules elsewhere', () => {
    expect(codes([green], 'IEC')).toEqual([]);
  });
});
