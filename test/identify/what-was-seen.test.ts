import { describe, expect, it } from 'vitest';
import type { Assignment, ColorName } from '../../src/flow';
import { identify, panelMap } from '../../src/identify';
import { openRoles } from '../../src/identify/explain/collide';
import { commonness, habitColors, usualColor } from '../../src/identify/explain/habits';
import { systemsOpen } from '../../src/identify/explain/one-color';
import { colorOf, roleMarginals, see } from '../../src/identify/explain/read';
import { readEvidence, stripeRatio } from '../../src/identify/model/evidence';
import { conductor, conductors, site } from './make';

const assigned = (...roles: Assignment['roles']): Assignment => ({ conductor: 'c', roles, because: [] });
const NONE = assigned();
const seen = (...args: Parameters<typeof conductor>) => see(conductor(...args), NONE);
const COUNT = 13;

describe('a conductor as it is spoken of', () => {
  it('has the role that most systems together give it, with their sum, and the likeliest system of that role', () => {
    const one = assigned(
      { system: 'us-480y277', role: 'phase B', probability: 0.4 },
      { system: 'us-208y120', role: 'phase A', probability: 0.35 },
      { system: 'us-240-delta', role: 'phase A', probability: 0.25 },
    );
    expect(roleMarginals(one)[0]).toEqual({ role: 'phase A', probability: expect.closeTo(0.6, 12) });
    expect(see(conductor('c', 'black'), one)).toMatchObject({ role: 'phase A', system: 'us-208y120' });
    // Twin: alike probable roles stand in the order of their names, whatever order they come in.
    const alike = assigned(
      { system: 'us-208y120', role: 'phase C', probability: 0.5 },
      { system: 'us-208y120', role: 'phase B', probability: 0.5 },
    );
    expect(roleMarginals(alike).map((r) => r.role)).toEqual(['phase B', 'phase C']);
  });

  it('has no role, no system and no probability where the map has none for it', () => {
    expect(seen('c', 'red')).toMatchObject({ role: 'unassigned', roleProbability: 0, system: 'unknown' });
  });

  it('has the color that the user says; "not decided" leaves what was read, at most even', () => {
    const word = { at: '2026-01-05T10:00:00Z', by: 'x' };
    expect(colorOf(conductor('c', 'red', { userWord: { ...word, name: 'orange' } }))).toEqual({
      color: 'orange',
      sure: 0.99,
    });
    const undecided = (p: number) =>
      colorOf(conductor('c', { red: p, pink: 0.1 }, { userWord: { ...word, name: 'not decided' } }));
    expect(undecided(0.9)).toEqual({ color: 'red', sure: 0.5 });
    expect(undecided(0.3)).toEqual({ color: 'red', sure: 0.3 });
  });

  it('wears a stripe or tape from even odds on, the surest tape of several, and what the user says of it', () => {
    const stripe = (confidence: number) =>
      seen('c', 'green', { stripe: { name: 'yellow', confidence, layout: 'along' } }).stripe;
    expect([stripe(0.5), stripe(0.49)]).toEqual(['yellow', null]);
    const tape = (name: ColorName, confidence: number) => ({ name, confidence, at: [0, 0] as const, cover: 1 });
    expect(seen('c', 'black', { tape: [tape('red', 0.6), tape('blue', 0.8)] }).tape).toBe('blue');
    expect(seen('c', 'black', { tape: [tape('red', 0.4)] }).tape).toBeNull();
    const word = { at: '2026-01-05T10:00:00Z', by: 'x', name: 'black' } as const;
    const said = (tapeSaid: ColorName | null) =>
      seen('c', 'black', { tape: [tape('red', 0.9)], userWord: { ...word, tape: tapeSaid } }).tape;
    expect([said('white'), said(null)]).toEqual(['white', null]);
    expect(seen('c', 'black', { tape: [tape('red', 0.9)], userWord: word }).tape).toBe('red');
  });
});

describe('one color alone', () => {
  const open = (...all: ReturnType<typeof seen>[]): boolean => systemsOpen(all, site());

  it('leaves every system open where several wear it, however often it is there', () => {
    expect(habitColors('us-208y120').has('black')).toBe(true);
    expect(open(seen('a', 'black'))).toBe(true);
    expect(open(seen('a', 'black'), seen('b', 'black'))).toBe(true);
  });

  it('does not where two colors are sure, nor where a stripe is on one of several', () => {
    expect(open(seen('a', 'black'), seen('b', 'red'))).toBe(false);
    const striped = seen('b', 'black', { stripe: { name: 'yellow', confidence: 0.9, layout: 'along' } });
    expect(open(seen('a', 'black'), striped)).toBe(false);
    expect(open(striped)).toBe(false);
  });

  it('counts no bare and no green conductor, and an unsure second color as none', () => {
    expect(open(seen('a', 'black'), seen('g', 'green'), seen('e', 'red', { covering: 'bare' }))).toBe(true);
    expect(open(seen('a', 'black'), seen('b', { red: 0.6, orange: 0.4 }))).toBe(true);
    expect(open(seen('g', 'green'))).toBe(false);
  });

  it('says nothing of a color that one system alone wears', () => {
    const only = (['pink', 'turquoise', 'violet'] as const).find((c) => commonness('US', c) === 1);
    if (only) expect(open(seen('a', only))).toBe(false);
    expect(commonness('US', 'black')).toBeGreaterThan(1);
  });
});

describe('roles that color leaves open', () => {
  const roles = (...colors: ColorName[]) => {
    const all = conductors(...colors).map((c) => see(c, NONE));
    return Object.fromEntries(
      [...openRoles(all, site({ systems: ['us-480y277'] }))].map(([id, set]) => [id, [...set]]),
    );
  };

  it('are one each for brown, orange, yellow at 480Y/277 V (common practice, no source)', () => {
    expect(roles('brown', 'orange', 'yellow')).toEqual({ c1: ['phase A'], c2: ['phase B'], c3: ['phase C'] });
  });

  it('twin: of a color that this system never wears there is none', () => {
    const never = (['pink', 'turquoise'] as const).find((c) => !habitColors('us-480y277').has(c))!;
    expect(roles(never).c1).toEqual([]);
  });

  it('are those of all candidates where the color is unsure', () => {
    const all = [see(conductor('c1', { brown: 0.55, orange: 0.4, red: 0.05 }), NONE)];
    expect([...openRoles(all, site({ systems: ['us-480y277'] })).get('c1')!].sort()).toEqual(['phase A', 'phase B']);
  });

  it('of three named systems are those of a set of all three, where no two explain what is seen', () => {
    // Orange with a white stripe is an isolated conductor (NEC 517.160(A)(5)); such a system has no plain red, nor yellow.
    const white = { stripe: { name: 'white', confidence: 0.95, layout: 'along' } } as const;
    const all = [
      ...conductors('brown', 'yellow', 'gray', 'red', 'black', 'blue', 'white'),
      conductor('iso', 'orange', white),
    ].map((c) => see(c, NONE));
    const named = (...systems: string[]) => openRoles(all, site({ systems }));
    const found = named('us-208y120', 'us-480y277', 'us-isolated-power');
    expect([...found.get('iso')!].some((role) => role.startsWith('isolated'))).toBe(true);
    expect([...found.get('c2')!]).toContain('phase C');
    // Twin: without the third nothing explains all that is seen, and nothing is said of any.
    expect([...named('us-208y120', 'us-480y277').values()].every((roles) => roles.size === 0)).toBe(true);
  });

  it('come with the usual color of each', () => {
    const usual = (['phase A', 'phase B', 'phase C'] as const).map((r) => usualColor('us-480y277', r));
    expect(usual).toEqual(['brown', 'orange', 'yellow']);
    expect(usualColor('us-480y277', 'traveler')).toBeNull();
  });
});

describe('why a role', () => {
  const company = (...colors: ColorName[]) =>
    identify(conductors(...colors), site()).assignments[0]!.because.find((m) => /company|alone/.test(m.code));

  it('is also the company it keeps: brown beside orange and yellow', () => {
    const said = company('brown', 'orange', 'yellow')!;
    expect(said.code).toContain('company');
    const values = JSON.stringify(said.values);
    expect(values).toContain('orange');
    expect(values).toContain('yellow');
    expect(values).not.toContain('brown');
  });

  it('twin: in the company of its own color it is alone', () => {
    const said = company('brown', 'brown');
    if (said) expect(said.code).toContain('alone');
  });
});

describe('evidence of a stripe', () => {
  const evidence = (confidence: number) =>
    readEvidence(conductor('c', 'orange', { stripe: { name: 'brown', confidence, layout: 'along' } }));

  it('is the ratio of what was read to the share of striped conductors met on average, a tenth', () => {
    const { plain, striped } = evidence(0.9);
    const brown = Math.max(...striped);
    expect(brown).toBeCloseTo((0.9 / 0.1) * COUNT, 9);
    // 70 % of what is left is "no stripe at all", against nine plain conductors in ten.
    expect(plain).toBeCloseTo((0.1 * 0.7) / 0.9, 9);
    const others = striped.filter((v) => v < brown);
    expect(others).toHaveLength(COUNT - 1);
    expect(others[0]).toBeCloseTo(((0.1 * 0.3) / (COUNT - 1) / 0.1) * COUNT, 9);
  });

  it('never rules anything out: what is left has a floor', () => {
    const { plain, striped } = evidence(1);
    expect(plain).toBeGreaterThanOrEqual(0.003);
    expect(Math.min(...striped)).toBeGreaterThanOrEqual(0.003);
  });

  it('of a distinctive stripe is the mean over the colors that may be one, its own left out (NEC 517.160(A)(5))', () => {
    const e = evidence(0.9);
    const brown = Math.max(...e.striped);
    const other = Math.min(...e.striped);
    // Nine colors are none of white, green, gray and green-yellow; orange itself is left out.
    expect(stripeRatio(e, 'distinctive', 'orange')).toBeCloseTo((brown + 7 * other) / 8, 9);
    expect(stripeRatio(e, 'distinctive', 'brown')).toBeCloseTo(other, 9);
    expect(stripeRatio(e, 'brown', 'orange')).toBe(brown);
  });

  it('unseen: what may be on the far side, never nothing and never more than even', () => {
    const hidden = (h: number) => Math.max(...readEvidence(conductor('c', 'orange', { hiddenStripe: h })).striped);
    expect(hidden(0)).toBe(0.02);
    expect(hidden(0.05)).toBeCloseTo((0.05 / 0.95) * 9, 9);
    expect(hidden(0.9)).toBe(1);
  });
});

describe('a panel with wrong colors', () => {
  const faults = (...colors: ColorName[]) => {
    const all = conductors(...colors);
    const spaces = Object.fromEntries(all.map((c, k) => [c.id, 2 * k + 1]));
    const known = site({ systems: ['us-208y120'], spaces });
    return panelMap('three-phase', 'us-208y120', all, identify(all, known), known).faults;
  };

  it('has swapped conductors only where each wears the color of the other', () => {
    // Spaces 1, 3, 5 are A, B, C: black, red, blue at 208Y/120 V (common practice, no source).
    expect(faults('red', 'black', 'blue')).toEqual([{ kind: 'swapped', conductors: ['c1', 'c2'], spaces: [1, 3] }]);
    expect(faults('black', 'red', 'blue')).toEqual([]);
    // Twin: two that are wrong in the same way are not swapped.
    expect(faults('red', 'red', 'red')).toEqual([]);
    expect(faults('red', 'blue', 'blue')).toEqual([]);
  });

  it('is rolled where every color stands one step on', () => {
    expect(faults('red', 'blue', 'black').map((f) => f.kind)).toEqual(['rolled']);
  });
});
