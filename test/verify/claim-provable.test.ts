import { describe, expect, it } from 'vitest';
import type { Claim } from '../../src/verify/claim';
import { provable } from '../../src/verify/claim-provable';

type Belief = Parameters<typeof provable>[1];

const claim = (conductor: string, role: Claim['role'], system: Claim['system'] = 'us-120-240-1ph'): Claim => ({
  conductor,
  role,
  system,
  probability: 0.9,
});
const belief = (claims: readonly Claim[], models: Belief['models']): Belief => ({
  claims: new Map(claims.map((c) => [c.conductor, c])),
  models,
});
const some = (() => ({})) as unknown as Belief['models'];

describe('what checks can prove', () => {
  it('one traveler alone cannot be told from a switch leg; two of one system can', () => {
    const [a, b] = [claim('a', 'traveler'), claim('b', 'traveler')];
    expect(provable(a, belief([a], some))).toBe(false);
    expect(provable(a, belief([a, b], some))).toBe(true);
  });

  it('twin: a traveler of another system, or another role beside it, is no partner', () => {
    const a = claim('a', 'traveler');
    expect(provable(a, belief([a, claim('b', 'traveler', 'us-208y120')], some))).toBe(false);
    expect(provable(a, belief([a, claim('b', 'switch leg')], some))).toBe(false);
  });

  it('nothing proves what has no role, what only controls, or a system whose voltages are not known', () => {
    const unknown = (() => null) as Belief['models'];
    expect(provable(claim('a', 'unassigned'), belief([], some))).toBe(false);
    expect(provable(claim('a', 'control'), belief([], some))).toBe(false);
    expect(provable(claim('a', 'line 1'), belief([], unknown))).toBe(false);
    expect(provable(claim('a', 'line 1'), belief([], some))).toBe(true);
  });
});
