import { describe, expect, it } from 'vitest';
import { type SiteKnowledge, TAG_WORDS } from '../../src/flow';
import { identify, roleMarginals, roleOfTag, SYSTEMS } from '../../src/identify';
import { SPACE_TRUST } from '../../src/identify/model/priors';
import { TAG_CEILING, TAG_WRONG, tagRatio } from '../../src/identify/model/tag';
import { conductors, type ReadColor, site } from './make';

const WYE = ['us-208y120'];
const read = (k: Partial<SiteKnowledge>, ...colors: readonly ReadColor[]) => identify(conductors(...colors), site(k));
const tops = (k: Partial<SiteKnowledge>, ...colors: readonly ReadColor[]) =>
  read(k, ...colors).assignments.map((a) => roleMarginals(a)[0]!);
const codes = (k: Partial<SiteKnowledge>, ...colors: readonly ReadColor[]) =>
  read(k, ...colors).findings.map((f) => f.code);

describe('what a tag names', () => {
  it('counts the lines of a system in its own order, by letter or number (common practice, no source)', () => {
    const names = (system: string) => TAG_WORDS.map((word) => roleOfTag(word, system));
    const ground = 'equipment grounding conductor';
    const [n, a, b, c] = ['grounded conductor', 'phase A', 'phase B', 'phase C'];
    expect(names('us-208y120')).toEqual([a, b, c, a, b, c, n, ground]);
    expect(names('us-120-240-1ph')).toEqual(['line 1', 'line 2', null, 'line 1', 'line 2', null, n, ground]);
    // NEC 408.3(E)(1): in a high-leg delta the phase with the higher voltage is B; CEC 4-036(4): it is A.
    expect(names('us-240-120-high-leg').slice(0, 3)).toEqual([a, 'high leg', c]);
    expect(names('ca-240-120-high-leg').slice(0, 3)).toEqual(['high leg', b, c]);
    // The grounded corner is B in the data here.
    expect(names('us-480-corner').slice(0, 3)).toEqual([a, n, c]);
    expect(names('us-dc').slice(0, 6)).toEqual([null, null, null, null, null, null]);
    expect(names('us-switch-legs').every((role) => role === null)).toBe(true);
    expect(names('nothing').every((role) => role === null)).toBe(true);
  });

  it.each(Object.keys(SYSTEMS))('is a role of the system or nothing (%s)', (id) => {
    for (const word of TAG_WORDS) {
      const role = roleOfTag(word, id);
      if (role !== null) expect(SYSTEMS[id]!.roles).toContain(role);
    }
  });

  it('weighs a right one as often as tags are right, and the words on one line add up', () => {
    const words = ['A', 'B', 'C', 'N', 'G'] as const;
    for (const role of ['phase A', 'grounded conductor', 'equipment grounding conductor'] as const) {
      const sum = words.reduce((all, word) => all + tagRatio(word, role, 'us-208y120'), 0);
      expect(sum / words.length).toBeCloseTo(1, 12);
    }
    expect(tagRatio('A', 'phase A', 'us-208y120') / words.length).toBeCloseTo(1 - TAG_WRONG, 12);
  });

  it('speaks less against a switch leg, which may be named after its phase, than against another line', () => {
    // Common practice, no source.
    for (const [role, system] of [
      ['switch leg', 'us-switch-legs'],
      ['traveler', 'us-switch-legs'],
      ['control', 'us-control'],
      ['positive', 'us-dc'],
      ['unassigned', 'us-208y120'],
    ] as const) {
      expect(tagRatio('A', role, system)).toBeLessThan(1);
      expect(tagRatio('A', role, system)).toBeGreaterThan(2 * tagRatio('A', 'phase B', 'us-208y120'));
    }
    // Twin: where the letter has a meaning, a wrong one stays a wrong one, and more so on neutral and ground.
    for (const role of ['phase B', 'grounded conductor', 'equipment grounding conductor'] as const)
      expect(tagRatio('A', role, 'us-208y120')).toBeLessThan(0.15);
  });

  it('is set between color, which habit tells, and the pole, which decides', () => {
    expect(1 - TAG_WRONG).toBeGreaterThan(0.9);
    expect(1 - TAG_WRONG).toBeLessThan(SPACE_TRUST);
  });
});

describe('a tag read', () => {
  it('tells the letter where all lines are black, never above what tags are worth', () => {
    const tags = { c1: 'A', c2: 'B', c3: 'C' } as const;
    const lines = tops({ systems: WYE, tags }, 'black', 'black', 'black', 'white').slice(0, 3);
    expect(lines.map((l) => l.role)).toEqual(['phase A', 'phase B', 'phase C']);
    for (const { probability } of lines) {
      expect(probability).toBeGreaterThan(0.85);
      expect(probability).toBeLessThanOrEqual(TAG_CEILING);
    }
    // Twin: without tags nothing tells them.
    for (const l of tops({ systems: WYE }, 'black', 'black', 'black', 'white').slice(0, 3)) {
      expect(l.probability).toBeLessThan(0.7);
    }
  });

  it('that agrees with the color lifts the letter above habit; twin: one that does not outweighs it, and is found', () => {
    const k = (tag: 'A' | 'B') => ({ systems: WYE, tags: { c1: tag } });
    const colors = ['black', 'red', 'blue', 'white'] as const;
    const [without] = tops({ systems: WYE }, ...colors);
    const [agrees] = tops(k('A'), ...colors);
    expect(agrees).toMatchObject({ role: 'phase A' });
    expect(agrees!.probability).toBeGreaterThan(without!.probability);
    expect(codes(k('A'), ...colors)).not.toContain('tag-against-color');
    const [against] = tops(k('B'), ...colors);
    expect(against!.role).toBe('phase B');
    expect(against!.probability).toBeLessThan(agrees!.probability);
    expect(codes(k('B'), ...colors)).toContain('tag-against-color');
    // Where the user says that tags tell the phases, colors are not expected to agree.
    expect(codes({ ...k('B'), phasesBy: 'tag' }, ...colors)).not.toContain('tag-against-color');
  });

  it('is nothing against a pole: the conductor is what the pole is, and the tag is found to be wrong', () => {
    const k = { systems: WYE, spaces: { c1: 1, c2: 3 }, tags: { c1: 'B' } } as const;
    expect(tops(k, 'black', 'red')[0]!).toMatchObject({ role: 'phase A' });
    expect(codes(k, 'black', 'red')).toContain('tag-against-space');
    // Twin: the tag of that pole is not.
    expect(codes({ ...k, tags: { c1: 'A' } }, 'black', 'red')).not.toContain('tag-against-space');
  });

  it('says something of the system: L3 speaks for three lines', () => {
    const p = (tags?: SiteKnowledge['tags']) =>
      read(tags ? { tags } : {}, 'black', 'black', 'white').systems.find((s) => s.system === 'us-120-240-1ph')
        ?.probability ?? 0;
    expect(p({ c1: 'L3' })).toBeLessThan(0.5 * p());
    expect(p({ c1: 'L1' })).toBeGreaterThan(0.5 * p());
  });

  it('of neutral or ground tells black from a line', () => {
    const black = (tag?: 'N' | 'G') =>
      tops({ systems: WYE, ...(tag && { tags: { c1: tag } }) }, 'black', 'black', 'red', 'blue')[0]!;
    expect(black().role).toMatch(/^phase/);
    const share = (tag: 'N' | 'G', role: string): number =>
      roleMarginals(read({ systems: WYE, tags: { c1: tag } }, 'black', 'black', 'red', 'blue').assignments[0]!).find(
        (r) => r.role === role,
      )?.probability ?? 0;
    expect(share('N', 'grounded conductor')).toBeGreaterThan(0.2);
    expect(share('G', 'equipment grounding conductor')).toBeGreaterThan(0.2);
  });

  it('makes the colors of the others say less only where it speaks against colors', () => {
    const colors = ['black', 'red', 'blue', 'black', 'red', 'blue', 'white'] as const;
    const fourth = (tags?: SiteKnowledge['tags']) => tops({ systems: WYE, ...(tags && { tags }) }, ...colors)[3]!;
    const against = fourth({ c1: 'B', c2: 'C', c3: 'A' });
    const agrees = fourth({ c1: 'A', c2: 'B', c3: 'C' });
    expect(agrees.probability).toBeGreaterThan(0.85);
    expect(against.probability).toBeLessThan(0.6);
  });

  it('is said among the reasons', () => {
    const why = (tag: 'A' | 'B') =>
      read({ systems: WYE, tags: { c1: tag, c2: 'B' } }, 'black', 'black', 'white').assignments[0]!.because.map(
        (m) => m.code,
      );
    expect(why('A')).toContain('identify.because.tag-reads');
  });

  it('twice on one breaker is found; twin: on two circuits it is not', () => {
    const groups = (kind: 'breaker' | 'cable'): SiteKnowledge['groups'] => [{ kind, conductors: ['c1', 'c2'] }];
    const k = { systems: WYE, tags: { c1: 'A', c2: 'A' } } as const;
    expect(codes({ ...k, groups: groups('breaker') }, 'black', 'red')).toContain('tag-repeated');
    expect(codes({ ...k, groups: groups('cable') }, 'black', 'red')).not.toContain('tag-repeated');
    expect(codes({ ...k, tags: { c1: 'N', c2: 'N' }, groups: groups('breaker') }, 'white', 'white')).not.toContain(
      'tag-repeated',
    );
  });

  it.each(TAG_WORDS)('%s keeps probabilities at most one, and the order of conductors does not matter', (tag) => {
    const cs = conductors('black', 'red', 'white', 'green');
    const k = site({ tags: { c2: tag } });
    const there = identify(cs, k).assignments;
    const back = identify(cs.toReversed(), k).assignments.toReversed();
    expect(back).toEqual(there);
    for (const a of there) expect(a.roles.reduce((sum, r) => sum + r.probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
  });
});
