import { describe, expect, it } from 'vitest';
import type { NamedConductor, Role, SiteKnowledge } from '../../src/flow';
import { identify, roleMarginals } from '../../src/identify';
import { conductor, conductors, site } from './make';

const belief = (cs: readonly NamedConductor[], id: string, k: SiteKnowledge = site()) => {
  const map = identify(cs, k);
  const roles = roleMarginals(map.assignments.find((a) => a.conductor === id)!);
  return {
    map,
    top: roles[0]!,
    of: (role: Role) => roles.find((r) => r.role === role)?.probability ?? 0,
    system: (id2: string) => map.systems.find((s) => s.system === id2)?.probability ?? 0,
  };
};

describe('traps of the reference', () => {
  it('orange alone never decides a system or a role', () => {
    const b = belief(conductors('orange'), 'c1');
    expect(b.top.probability).toBeLessThan(0.9);
    for (const system of ['us-480y277', 'us-240-120-high-leg', 'us-isolated-power']) {
      expect(b.system(system)).toBeGreaterThan(0.02);
    }
  });
  it('twin: orange with brown, yellow and gray does', () => {
    const b = belief(conductors('orange', 'brown', 'yellow', 'gray'), 'c1');
    expect(b.system('us-480y277')).toBeGreaterThan(0.9);
    expect(b.top).toMatchObject({ role: 'phase B' });
    expect(b.top.probability).toBeGreaterThan(0.8);
  });
  it('orange beside black, blue and white is the high leg, not 480Y/277', () => {
    const b = belief(conductors('black', 'orange', 'blue', 'white'), 'c2');
    expect(b.top.role).toBe('high leg');
    expect(b.system('us-480y277')).toBeLessThan(0.05);
  });
  it('orange on space 3 beside black and red is the high leg on B (NEC 408.3(E)(1), 110.15), not 480Y/277 phase B', () => {
    const cs = conductors('black', 'orange', 'red', 'black', 'orange', 'red', 'white', 'white', 'green');
    const spaces = { c1: 1, c2: 3, c3: 5, c4: 2, c5: 4, c6: 6 };
    const b = belief(cs, 'c2', site({ spaces }));
    expect(b.top.role).toBe('high leg');
    expect(b.top.probability).toBeGreaterThan(0.8);
    expect(b.system('us-480y277')).toBeLessThan(0.02);
  });
  it('twin: the same spaces with brown, orange and yellow are 480Y/277, whose B is no high leg', () => {
    const cs = conductors('brown', 'orange', 'yellow', 'brown', 'orange', 'yellow', 'gray', 'gray', 'green');
    const spaces = { c1: 1, c2: 3, c3: 5, c4: 2, c5: 4, c6: 6 };
    const b = belief(cs, 'c2', site({ spaces }));
    expect(b.top.role).toBe('phase B');
    expect(b.system('us-240-120-high-leg')).toBeLessThan(0.02);
  });
  it('a striped orange and a striped brown are isolated power, plain ones are not surely anything', () => {
    const stripe = { name: 'violet', confidence: 0.95, layout: 'along' } as const;
    const striped = [conductor('a', 'orange', { stripe }), conductor('b', 'brown', { stripe })];
    expect(belief(striped, 'a').top).toMatchObject({ role: 'isolated conductor 1' });
    expect(belief(striped, 'a').top.probability).toBeGreaterThan(0.9);
    const plain = belief(conductors('orange', 'brown'), 'c1');
    expect(plain.of('isolated conductor 1')).toBeGreaterThan(0.03);
  });
  it('a stripe the camera may have missed keeps isolated power open', () => {
    const seen = (hiddenStripe: number) =>
      belief([conductor('a', 'orange', { hiddenStripe }), conductor('b', 'brown', { hiddenStripe })], 'a').of(
        'isolated conductor 1',
      );
    expect(seen(0.1)).toBeGreaterThan(1.5 * seen(0.01));
  });
  it('the Canadian high leg is A and red; the same photo in the United States is 208Y/120', () => {
    const cs = conductors('red', 'black', 'blue', 'white');
    const said = (jurisdiction: 'US' | 'CA', system: string) =>
      belief(cs, 'c1', site({ jurisdiction, systems: [system] }));
    expect(said('CA', 'ca-240-120-high-leg').top.role).toBe('high leg');
    expect(said('CA', 'ca-208y120').top.role).toBe('phase A');
    expect(said('US', 'us-208y120').top.role).toBe('phase B');
  });
  it('black, brown and gray carry no order in IEC 60445, but HD 308 / BS 7671 practice orders them', () => {
    const cs = conductors('brown', 'black', 'gray', 'blue', 'green-yellow');
    const iec = belief(cs, 'c1', site({ jurisdiction: 'IEC' }));
    expect(iec.top.probability).toBeLessThanOrEqual(0.9);
    expect(iec.map.findings.map((f) => f.code)).toContain('no-order');
    const uk = belief(cs, 'c1', site({ jurisdiction: 'UK' }));
    expect(uk.top).toMatchObject({ role: 'phase A' });
    expect(uk.top.probability).toBeGreaterThan(0.9);
  });
  it('blue is a neutral in one scheme and a phase in the other: at an interface it is neither', () => {
    const b = belief(
      conductors('brown', 'black', 'gray', 'blue', 'red', 'yellow', 'blue', 'black', 'green-yellow'),
      'c4',
      site({ jurisdiction: 'UK' }),
    );
    expect(b.top.probability).toBeLessThan(0.6);
    expect(b.map.findings.find((f) => f.code === 'old-and-new')?.conductors).toEqual(['c2', 'c4', 'c7', 'c8']);
  });
  it('black is hot in the United States and a neutral before 2004 in the UK, in India and in old Australian work', () => {
    const role = (jurisdiction: SiteKnowledge['jurisdiction'], system: string) =>
      belief(conductors('red', 'yellow', 'blue', 'black'), 'c4', site({ jurisdiction, systems: [system] })).top.role;
    expect(role('UK', 'uk-pre-2004-3ph')).toBe('grounded conductor');
    expect(role('IN', 'in-230-400')).toBe('grounded conductor');
    expect(role('US', 'us-208y120')).toBe('phase A');
  });
  it('white, gray and green never prove a function: nothing is ever certain, and on a breaker they are not trusted', () => {
    for (const color of ['white', 'gray', 'green'] as const) {
      const alone = belief(conductors('black', 'red', 'blue', color), 'c4');
      expect(alone.top.probability, color).toBeLessThan(0.985);
      const k = site({ groups: [{ kind: 'breaker', conductors: ['c3', 'c4'] }] });
      const landed = belief(conductors('black', 'red', 'blue', color), 'c4', k);
      expect(landed.top.probability, color).toBeLessThan(0.9);
      const code = color === 'green' ? 'green-as-other' : 'white-as-hot';
      expect(landed.map.findings.find((f) => f.code === code)?.conductors).toEqual(['c4']);
    }
  });
  it('white with tape of another color is re-identified (NEC 200.7(C)(1)) and hot', () => {
    const cs = [
      conductor('a', 'black'),
      conductor('b', 'white', { tape: [{ name: 'red', confidence: 0.95, at: [0, 0] }] }),
    ];
    const b = belief(cs, 'b');
    expect(b.of('grounded conductor')).toBeLessThan(0.1);
    expect(b.map.findings.find((f) => f.code === 'white-remarked')?.conductors).toEqual(['b']);
  });
  it('gray without brown, orange or yellow beside it may be an old hot', () => {
    const b = belief(conductors('black', 'white', 'gray', 'green'), 'c3');
    expect(b.top.probability).toBeLessThan(0.9);
  });
  it('black and red with white alone are two lines or two phases, and which is which is open', () => {
    const b = belief(conductors('black', 'red', 'white', 'green'), 'c1');
    expect(b.top.probability).toBeLessThan(0.9);
    expect(b.of('line 1')).toBeGreaterThan(0.05);
    expect(b.of('phase A')).toBeGreaterThan(0.02);
  });
  it('red alone may be line 2, phase B, positive, a switch leg or a traveler', () => {
    expect(belief(conductors('red'), 'c1').top.probability).toBeLessThan(0.6);
  });
  it('a shared brown-red reading is settled by its company, not by itself', () => {
    const either = { brown: 0.5, red: 0.5 };
    expect(belief(conductors('black', either, 'blue', 'white'), 'c2').top.role).toBe('phase B');
    expect(belief(conductors(either, 'orange', 'yellow', 'gray'), 'c1').top.role).toBe('phase A');
  });
  it('so is a shared blue-gray and a shared gray-violet reading (closest centers after brown-red)', () => {
    const blueGray = { blue: 0.5, gray: 0.5 };
    expect(belief(conductors('black', 'red', blueGray, 'white'), 'c3').top.role).toBe('phase C');
    expect(belief(conductors('brown', 'orange', 'yellow', blueGray), 'c4').top.role).toBe('grounded conductor');
    expect(belief(conductors(blueGray), 'c1').top.probability).toBeLessThan(0.6);
    const grayViolet = { gray: 0.5, violet: 0.5 };
    expect(belief(conductors('brown', grayViolet, 'yellow', 'gray', 'green'), 'c2').top.role).toBe('phase B');
    // Twin: with the phase already there, the same reading is the neutral.
    expect(belief(conductors('brown', 'violet', 'yellow', grayViolet, 'green'), 'c4').top.role).toBe(
      'grounded conductor',
    );
  });
  it('tape that leaves insulation bare beside it weighs less than tape that goes over (NEC 200.6(B))', () => {
    const neutral = (cover: number) =>
      belief(
        [
          ...conductors('black', 'red'),
          // Doubtful enough to stay below the ceiling, where a difference shows.
          conductor('n', 'black', { tape: [{ name: 'white', confidence: 0.5, at: [0, 0], cover }] }),
        ],
        'n',
      ).of('grounded conductor');
    expect(neutral(0.3)).toBeLessThan(neutral(0.95) - 0.02);
    // Twin: how far it reaches makes no difference once it goes over.
    expect(neutral(0.8)).toBeCloseTo(neutral(0.95), 9);
  });
});
