import { describe, expect, it } from 'vitest';
import { effort, planChecks, planFirst } from '../../src/verify';
import { expectedWork, type OrderProblem, orderChecks } from '../../src/verify/order';
import { ground, mapOf, on, WYE_208 } from './fixtures';
import { Chance } from './sim/chance';
import { leastWork } from './sim/oracle';
import { METER } from './sim/probe';
import { orderProblem } from './sim/regret';

const problems = (n: number): OrderProblem[] => {
  const found: OrderProblem[] = [];
  for (let k = 0; found.length < n; k++) {
    const one = orderProblem(new Chance(31 * k + 5));
    if (one) found.push(one);
  }
  return found;
};

function* permutations(left: readonly number[], done: readonly number[] = []): Generator<number[]> {
  if (left.length === 0) yield [...done];
  for (const one of left)
    yield* permutations(
      left.filter((x) => x !== one),
      [...done, one],
    );
}

describe('effort', () => {
  const step = (a: string, b: string) => ({ from: on(a), to: on(b), function: 'AC volts' as const });

  it('is less for moving one lead than for moving two', () => {
    expect(effort(step('a', 'n'), step('b', 'n'))).toBeLessThan(effort(step('a', 'n'), step('b', 'c')));
    expect(effort(step('a', 'n'), step('n', 'a'))).toBeLessThan(effort(step('a', 'n'), step('b', 'n')));
  });

  it('is by far the largest for shutting down', () => {
    const lifted = {
      from: on('n'),
      to: ground,
      function: 'continuity' as const,
      condition: 'supply off, lifted' as const,
    };
    expect(effort(step('a', 'n'), lifted)).toBeGreaterThan(5 * effort(step('a', 'n'), step('b', 'c')));
  });
});

describe('what a check is for', () => {
  it('says which ways of being wrong it would show, and none that it could not', () => {
    const plan = planChecks(mapOf(WYE_208), [], { meter: METER });
    const codesOf = (part: string): string[] =>
      plan.next.find((c) => c.id.includes(part))?.rulesOut?.map((m) => m.code) ?? [];
    expect(codesOf('conductor a | pole')).toContain('verify.rules-out.swapped');
    expect(codesOf('conductor a | conductor n')).toContain('verify.rules-out.disconnected');
    // To ground all phases read alike: it cannot show that two of them are exchanged.
    const pairs = plan.next.find((c) => c.id === 'AC volts | conductor a | ground')?.rulesOut ?? [];
    expect(pairs.map((m) => String(m.values?.second))).not.toContain('b');
    expect(plan.next.every((c) => (c.rulesOut ?? []).length <= 3)).toBe(true);
  });

  it('gives most information to a check whose outcomes differ most', () => {
    const unsure = mapOf(
      WYE_208.map((s) => ({
        ...s,
        probability: 0.5,
        others: [{ system: s.system, role: 'equipment grounding conductor' as const, probability: 0.5 }],
      })),
    );
    const bits = planChecks(unsure, [], { meter: METER }).next.map((c) => c.informationBits);
    const sure = planChecks(mapOf(WYE_208), [], { meter: METER }).next.map((c) => c.informationBits);
    expect(Math.max(...bits)).toBeGreaterThan(Math.max(...sure));
    expect(Math.min(...bits, ...sure)).toBeGreaterThanOrEqual(0);
  });
});

describe('the first plan', () => {
  it('has the very checks of the full plan, said alike, in an order of its own', () => {
    const map = mapOf(WYE_208);
    const byId = (plan: ReturnType<typeof planChecks>) => [...plan.next].sort((a, b) => a.id.localeCompare(b.id));
    const [first, full] = [planFirst(map, [], { meter: METER }), planChecks(map, [], { meter: METER })];
    expect(byId(first)).toEqual(byId(full));
    expect(first.required).toEqual(full.required);
    expect(first.next.map((c) => c.id)).not.toEqual(byId(first).map((c) => c.id));
  });
});

describe('order of checks against the exact oracle', () => {
  it('the oracle is what trying every order finds', () => {
    for (const problem of problems(3)) {
      const small = { ...problem, checks: problem.checks.slice(0, 6) };
      const tried = [...permutations([...small.checks.keys()])].map((order) => expectedWork(small, order));
      expect(leastWork(small)).toBeCloseTo(Math.min(...tried), 9);
    }
  });

  it('the shipped order is within 10 % of the least expected work', () => {
    for (const problem of problems(8)) {
      const regret = expectedWork(problem, orderChecks(problem)) / leastWork(problem) - 1;
      expect(regret).toBeGreaterThanOrEqual(-1e-9);
      expect(regret).toBeLessThanOrEqual(0.1);
    }
  });

  it('a list in an arbitrary order is not', () => {
    // Twin: if any order passed, the bound above would say nothing.
    const [problem] = problems(1);
    if (!problem) throw new Error('no problem');
    const order = new Chance(3).shuffled([...problem.checks.keys()]);
    expect(expectedWork(problem, order) / leastWork(problem) - 1).toBeGreaterThan(0.1);
  });
});
