import { describe, expect, it } from 'vitest';
import type { ColorName, NamedConductor, SiteKnowledge } from '../../src/flow';
import { identify } from '../../src/identify';
import { leavesBare, tapeConfidence } from '../../src/identify/model/tape-cover';
import { conductor, conductors, site } from './make';

const codes = (cs: readonly NamedConductor[], k: SiteKnowledge = site()): string[] =>
  identify(cs, k).findings.map((f) => f.code);
const only = (cs: readonly NamedConductor[], code: string, k: SiteKnowledge = site()) =>
  identify(cs, k).findings.find((f) => f.code === code);
const stripe = (name: ColorName) => ({ stripe: { name, confidence: 0.95, layout: 'along' as const } });
const taped = (...names: ColorName[]) => ({
  tape: names.map((name) => ({ name, confidence: 0.95, at: [0, 0] as const })),
});

/** Black under red tape that covers so much of the side seen. */
const covered = (cover: number): NamedConductor =>
  conductor('a', 'black', { tape: [{ name: 'red', confidence: 0.95, at: [0, 0], cover }] });
const spacesUpTo = (last: number): Record<string, number> =>
  Object.fromEntries(Array.from({ length: last }, (_, i) => [`c${i + 1}`, i + 1]));
const SIX = spacesUpTo(6);
const TWELVE = spacesUpTo(12);
/** Colors of the first six spaces, and the same turned round on the next six. */
const mixed = (...six: ColorName[]): ColorName[] =>
  six.join() === 'black,black,red,red,blue,blue' ? [...six, ...six] : [...six, ...six.toReversed()];

/** Each finding with a picture that has it and a twin that must not. */
const CASES: readonly {
  readonly code: string;
  readonly source: string;
  readonly bad: readonly NamedConductor[];
  readonly badSite?: SiteKnowledge;
  readonly good: readonly NamedConductor[];
  readonly goodSite?: SiteKnowledge;
}[] = [
  {
    code: 'white-as-hot',
    source: 'NEC 200.7(C)(1)',
    bad: conductors('black', 'white'),
    badSite: site({ groups: [{ kind: 'breaker', conductors: ['c1', 'c2'] }] }),
    good: conductors('black', 'red'),
    goodSite: site({ groups: [{ kind: 'breaker', conductors: ['c1', 'c2'] }] }),
  },
  {
    code: 'white-remarked',
    source: 'NEC 200.7(C)(1)',
    bad: [conductor('a', 'black'), conductor('b', 'white', taped('black'))],
    good: [conductor('a', 'black'), conductor('b', 'white', taped('white'))],
  },
  {
    code: 'green-as-other',
    source: 'NEC 250.119',
    bad: conductors('black', 'green', 'white'),
    badSite: site({ spaces: { c1: 1, c2: 3 } }),
    good: conductors('black', 'red', 'white', 'green'),
    goodSite: site({ spaces: { c1: 1, c2: 3 } }),
  },
  {
    code: 'systems-alike',
    source: 'NEC 210.5(C)(1), 215.12(C)(1)',
    bad: conductors('black', 'red', 'blue', 'white', 'black', 'red', 'white'),
    badSite: site({ systems: ['us-208y120', 'us-120-240-1ph'] }),
    good: conductors('black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray'),
    goodSite: site({ systems: ['us-208y120', 'us-480y277'] }),
  },
  {
    code: 'neutrals-alike',
    source: 'NEC 200.6(D)',
    bad: conductors('black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'white'),
    good: conductors('black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray'),
  },
  {
    code: 'high-leg-not-orange',
    source: 'NEC 110.15, 230.56',
    bad: conductors('black', 'red', 'blue', 'white'),
    badSite: site({ systems: ['us-240-120-high-leg'] }),
    good: conductors('black', 'orange', 'blue', 'white'),
    goodSite: site({ systems: ['us-240-120-high-leg'] }),
  },
  {
    code: 'high-leg-not-on-its-phase',
    source: 'NEC 408.3(E)(1)',
    bad: conductors('black', 'blue', 'orange', 'white', 'black', 'blue'),
    badSite: site({ systems: ['us-240-120-high-leg'], spaces: { c1: 1, c3: 5, c5: 7, c6: 11 } }),
    good: conductors('black', 'orange', 'blue', 'white'),
    goodSite: site({ systems: ['us-240-120-high-leg'], spaces: { c1: 1, c2: 3, c3: 5 } }),
  },
  {
    code: 'load-on-high-leg',
    source: 'panel-phase-pattern notes: no 120 V load on every third row',
    bad: conductors('orange', 'white'),
    badSite: site({
      systems: ['us-240-120-high-leg'],
      spaces: { c1: 3 },
      groups: [{ kind: 'circuit', conductors: ['c1', 'c2'] }],
    }),
    good: conductors('black', 'white'),
    goodSite: site({
      systems: ['us-240-120-high-leg'],
      spaces: { c1: 1 },
      groups: [{ kind: 'circuit', conductors: ['c1', 'c2'] }],
    }),
  },
  {
    code: 'isolated-no-stripe',
    source: 'NEC 517.160(A)(5) (2017)',
    bad: conductors('orange', 'brown'),
    badSite: site({ systems: ['us-isolated-power'] }),
    good: [conductor('a', 'orange', stripe('violet')), conductor('b', 'brown', stripe('violet'))],
    goodSite: site({ systems: ['us-isolated-power'] }),
  },
  {
    code: 'isolated-forbidden-stripe',
    source: 'NEC 517.160(A)(5) (2017): any color but white, green or gray',
    bad: [conductor('a', 'orange', stripe('white')), conductor('b', 'brown', stripe('violet'))],
    badSite: site({ systems: ['us-isolated-power'] }),
    good: [conductor('a', 'orange', stripe('red')), conductor('b', 'brown', stripe('violet'))],
    goodSite: site({ systems: ['us-isolated-power'] }),
  },
  {
    code: 'panel-swapped',
    source: 'panel-phase-pattern us-3ph, NEC 408.3(E)(1)',
    bad: conductors('black', 'blue', 'red'),
    badSite: site({ systems: ['us-208y120'], spaces: { c1: 1, c2: 3, c3: 5 } }),
    good: conductors('black', 'red', 'blue'),
    goodSite: site({ systems: ['us-208y120'], spaces: { c1: 1, c2: 3, c3: 5 } }),
  },
  {
    code: 'panel-repeated',
    source: 'panel-phase-pattern multipole',
    bad: conductors('black', 'black', 'blue'),
    badSite: site({
      systems: ['us-208y120'],
      spaces: { c1: 1, c2: 3, c3: 5 },
      groups: [{ kind: 'breaker', conductors: ['c1', 'c2', 'c3'] }],
    }),
    good: conductors('black', 'red', 'blue'),
    goodSite: site({
      systems: ['us-208y120'],
      spaces: { c1: 1, c2: 3, c3: 5 },
      groups: [{ kind: 'breaker', conductors: ['c1', 'c2', 'c3'] }],
    }),
  },
  {
    code: 'neutral-same-phase',
    source: 'panel-phase-pattern multiwire, NEC 210.4(B)',
    bad: conductors('black', 'black', 'white'),
    badSite: site({
      systems: ['us-208y120'],
      spaces: { c1: 1, c2: 2 },
      groups: [{ kind: 'circuit', conductors: ['c1', 'c2', 'c3'] }],
    }),
    good: conductors('black', 'red', 'white'),
    goodSite: site({
      systems: ['us-208y120'],
      spaces: { c1: 1, c2: 3 },
      groups: [{ kind: 'circuit', conductors: ['c1', 'c2', 'c3'] }],
    }),
  },
  {
    code: 'neutral-of-other-system',
    source: 'NEC 200.6(D)',
    bad: conductors('brown', 'orange', 'yellow', 'white', 'black', 'red', 'blue', 'white', 'gray'),
    badSite: site({
      systems: ['us-208y120', 'us-480y277'],
      groups: [
        { kind: 'circuit', conductors: ['c1', 'c2', 'c3', 'c4'] },
        { kind: 'circuit', conductors: ['c5', 'c6', 'c7', 'c8'] },
      ],
    }),
    good: conductors('brown', 'orange', 'yellow', 'gray', 'black', 'red', 'blue', 'white'),
    goodSite: site({
      systems: ['us-208y120', 'us-480y277'],
      groups: [
        { kind: 'circuit', conductors: ['c1', 'c2', 'c3', 'c4'] },
        { kind: 'circuit', conductors: ['c5', 'c6', 'c7', 'c8'] },
      ],
    }),
  },
  {
    code: 'tape-must-encircle',
    source: 'NEC 200.6(B), 200.7(C)(1), 250.119',
    bad: [conductor('a', 'black', taped('red')), conductor('b', 'black')],
    good: conductors('black', 'red'),
  },
  {
    code: 'tape-not-encircling',
    source: 'NEC 200.6(B), 200.7(C)(1), 250.119',
    bad: [covered(0.4), conductor('b', 'black')],
    good: [covered(0.95), conductor('b', 'black')],
  },
  {
    code: 'panel-rolled',
    source: 'NEC 408.3(E)(1): A, B, C from the left or the top, and its exceptions',
    bad: conductors('red', 'red', 'blue', 'blue', 'black', 'black'),
    badSite: site({ systems: ['us-208y120'], spaces: SIX }),
    // One alone on another color is that conductor's fault, not the board's.
    good: conductors('red', 'black', 'red', 'red', 'blue', 'blue'),
    goodSite: site({ systems: ['us-208y120'], spaces: SIX }),
  },
  {
    code: 'panel-differs',
    source: 'NEC 408.3(E)(1); colors by habit',
    bad: conductors('blue', 'black', 'red', 'red', 'blue', 'blue'),
    badSite: site({ systems: ['us-208y120'], spaces: SIX }),
    good: conductors('black', 'black', 'red', 'red', 'blue', 'blue'),
    goodSite: site({ systems: ['us-208y120'], spaces: SIX }),
  },
  {
    code: 'phase-by-tag',
    source: 'NEC 210.5(C)(1): identification by phase may be by tagging',
    bad: conductors(...mixed('blue', 'black', 'red', 'black', 'red', 'blue')),
    badSite: site({ systems: ['us-208y120'], spaces: TWELVE }),
    good: conductors(...mixed('black', 'black', 'red', 'red', 'blue', 'blue')),
    goodSite: site({ systems: ['us-208y120'], spaces: TWELVE }),
  },
  {
    code: 'tapes-disagree',
    source: 'common practice, no source',
    bad: [conductor('a', 'black', taped('red', 'blue'))],
    good: [conductor('a', 'black', taped('red', 'red'))],
  },
  {
    code: 'no-ground-seen',
    source: 'NEC 250.118, from memory',
    bad: conductors('black', 'red', 'blue', 'white'),
    good: conductors('black', 'red', 'blue', 'white', 'green'),
  },
  {
    code: 'no-neutral-seen',
    source: 'common practice, no source',
    bad: conductors('brown', 'orange', 'yellow', 'green'),
    badSite: site({ systems: ['us-480y277'] }),
    good: conductors('brown', 'orange', 'yellow', 'gray', 'green'),
    goodSite: site({ systems: ['us-480y277'] }),
  },
  {
    code: 'sets-differ',
    source: 'NEC 310.10(G), from memory',
    bad: conductors('black', 'black', 'black', 'red', 'red', 'red', 'blue', 'blue', 'white'),
    badSite: site({ systems: ['us-208y120'] }),
    good: conductors('black', 'black', 'black', 'red', 'red', 'red', 'blue', 'blue', 'blue', 'white'),
    goodSite: site({ systems: ['us-208y120'] }),
  },
  {
    code: 'sets-worn-differently',
    source: 'NEC 310.10(G), from memory',
    bad: conductors('black', 'red', 'blue', 'brown', 'orange', 'yellow'),
    badSite: site({
      systems: ['us-208y120'],
      groups: [
        { kind: 'cable', conductors: ['c1', 'c2', 'c3'] },
        { kind: 'cable', conductors: ['c4', 'c5', 'c6'] },
      ],
    }),
    good: conductors('black', 'red', 'blue', 'blue', 'red', 'black'),
    goodSite: site({
      systems: ['us-208y120'],
      groups: [
        { kind: 'cable', conductors: ['c1', 'c2', 'c3'] },
        { kind: 'cable', conductors: ['c4', 'c5', 'c6'] },
      ],
    }),
  },
  {
    code: 'color-undecided',
    source: 'common practice, no source',
    bad: [conductor('a', { red: 0.4, brown: 0.3, orange: 0.3 })],
    good: conductors('red'),
  },
];

describe('findings', () => {
  it.each(CASES.map((c) => [c.code, c] as const))('%s is found where it is', (code, c) => {
    expect(codes(c.bad, c.badSite)).toContain(code);
  });
  it.each(CASES.map((c) => [c.code, c] as const))('twin: %s is not found where it is not', (code, c) => {
    expect(codes(c.good, c.goodSite)).not.toContain(code);
  });
  it('gives every violation a rule with edition and how it was checked', () => {
    for (const c of CASES) {
      const found = only(c.bad, c.code, c.badSite);
      expect(found?.ruleStatus, c.code).toBeDefined();
      if (found?.severity === 'violation') expect(found.rule, c.code).toMatch(/NEC 20\d\d|IEC 60445|BS 7671|CEC/);
    }
  });
  it('finds no neutrals alike where only lines are, nor where two that may be of either system differ', () => {
    const systems = ['us-208y120', 'us-480y277'];
    const lines = conductors('black', 'black', 'red', 'blue', 'white', 'brown', 'orange', 'yellow', 'gray');
    expect(codes(lines, site({ systems }))).not.toContain('neutrals-alike');
    const pale = (white: number) =>
      conductors(
        'black',
        'red',
        'blue',
        'brown',
        'orange',
        'yellow',
        { white: 0.55, gray: 0.45 },
        {
          white,
          gray: 1 - white,
        },
      );
    expect(codes(pale(0.45), site({ systems }))).not.toContain('neutrals-alike');
    // Twin: two that look the same are.
    expect(codes(pale(0.55), site({ systems }))).toContain('neutrals-alike');
  });
  it('tape that goes all the way over is believed as far as it was read, and no further', () => {
    const of = (cover: number) => tapeConfidence({ name: 'red', confidence: 0.9, at: [0, 0], cover });
    expect([of(0.7), of(0.85), of(1)]).toEqual([0.9, 0.9, 0.9]);
    expect([leavesBare(covered(0.7).tape[0]!), leavesBare(covered(0.69).tape[0]!)]).toEqual([false, true]);
    // Twin: tape that leaves some bare is believed less.
    expect(of(0.4)).toBeLessThan(0.8);
  });
  it('puts danger first', () => {
    const found = identify(conductors('black', 'green', 'white', 'black'), site({ spaces: { c1: 1, c2: 3 } })).findings;
    expect(found[0]?.severity).toBe('danger');
  });
  it('never says that anything is safe, dead or proved', () => {
    for (const c of CASES) {
      for (const f of identify(c.bad, c.badSite ?? site()).findings)
        expect(f.message.code).not.toMatch(/safe|dead|proved/);
    }
  });
});
