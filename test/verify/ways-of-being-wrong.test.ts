import { beforeEach, describe, expect, it } from 'vitest';
import type { Reading } from '../../src/flow';
import { judge, planChecks } from '../../src/verify';
import type { Belief } from '../../src/verify/agreement';
import { claimsOf } from '../../src/verify/claim';
import { informationBits, type PlanHypothesis, planHypotheses, rulesOut } from '../../src/verify/hypotheses';
import { modelsFor } from '../../src/verify/models';
import { bandOptions } from '../../src/verify/options';
import type { CheckNeed } from '../../src/verify/required';
import { FAULT_PRIOR } from '../../src/verify/states';
import { bar, ground, mapOf, on, pole, read, type Said, WYE_208 } from './fixtures';
import { asClaimed } from './sim/honest';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };
const SYSTEM = 'us-208y120';
const MAP = mapOf(WYE_208);
let BELIEF: Belief;
let all: readonly PlanHypothesis[];
beforeEach(() => {
  BELIEF = {
    claims: new Map(claimsOf(MAP).map((c) => [c.conductor, c])),
    models: modelsFor(MAP),
    band: bandOptions(OPTIONS),
  };
  all = planHypotheses(MAP, BELIEF, CHECKS);
});
const need = (from: Reading['from'], to: Reading['to'], more: Partial<CheckNeed> = {}): CheckNeed => ({
  id: 'x',
  from,
  to,
  function: 'AC volts',
  why: { code: 'x' },
  requiredFor: [],
  accepts: [],
  ...more,
});
const CHECKS = [
  need(on('a'), pole(SYSTEM, 'phase A')),
  need(on('a'), ground),
  need(on('a'), on('n')),
  need(on('a'), ground, { function: 'AC volts, low impedance' }),
  need(on('n'), ground, { function: 'continuity', condition: 'supply off, lifted' }),
  need(on('g'), ground, { function: 'continuity', condition: 'supply off, lifted' }),
];
const labelled = (code: string, values: Record<string, string>): PlanHypothesis => {
  const found = all.find(
    (h) =>
      h.label?.code === `verify.rules-out.${code}` &&
      Object.entries(values).every(([k, v]) => h.label?.values?.[k] === v),
  );
  if (!found) throw new Error(`no hypothesis ${code}`);
  return found;
};

describe('ways in which a map may be wrong', () => {
  it('are a distribution, the map being right first, which shows nothing new', () => {
    expect(all.reduce((sum, h) => sum + h.probability, 0)).toBeCloseTo(1, 12);
    expect(all[0]!.label).toBeNull();
    expect(all[0]!.shows).toEqual(CHECKS.map(() => false));
    expect(Math.max(...all.map((h) => h.probability))).toBe(all[0]!.probability);
    // Every pair of lines, and each with the neutral, once; every conductor loose; one neutral open.
    const count = (code: string) => all.filter((h) => h.label?.code === `verify.rules-out.${code}`).length;
    expect([count('swapped'), count('disconnected'), count('open-neutral'), count('role')]).toEqual([6, 5, 1, 0]);
  });

  it('exchanged phases show 208 V at the pole of the claim and the same 120 V everywhere else', () => {
    const { predicts, shows } = labelled('swapped', { first: 'a', second: 'b' });
    expect(predicts[0]).toBeCloseTo(120 * Math.sqrt(3), 9);
    expect(predicts[1]).toBeCloseTo(120, 9);
    expect(shows.slice(0, 4)).toEqual([true, false, false, false]);
  });

  it('a line exchanged with the neutral shows 0 V to ground', () => {
    const { predicts, shows } = labelled('swapped', { first: 'a', second: 'n' });
    expect(predicts[1]).toBeCloseTo(0, 9);
    expect(shows[1]).toBe(true);
    // Between the two it is 120 V either way.
    expect(shows[2]).toBe(false);
  });

  it('a loose conductor shows at low impedance, where ghost volts fall away, and as open where it should be bonded', () => {
    const loose = labelled('disconnected', { conductor: 'a' });
    expect(loose.shows).toEqual([false, false, false, true, false, false]);
    expect(loose.predicts.slice(1, 4)).toEqual([0, 0, 0]);
    expect(loose.probability / all[0]!.probability).toBeCloseTo(FAULT_PRIOR.disconnected, 12);
    // A neutral lifted with the supply off is open as it should be; a grounding conductor is bonded at the far end.
    expect(labelled('disconnected', { conductor: 'n' }).shows[4]).toBe(false);
    const bond = labelled('disconnected', { conductor: 'g' });
    expect(bond.shows[5]).toBe(true);
    expect(bond.predicts[5]).toBe(Number.POSITIVE_INFINITY);
  });

  it('an open neutral shows in volts and not in ohms', () => {
    const open = labelled('open-neutral', { conductor: 'n' });
    expect(open.shows).toEqual([false, false, true, false, false, false]);
  });

  it('are also the other roles that the map itself gives, from 0.3 % on', () => {
    const other = (probability: number) => {
      const said: Said[] = WYE_208.map((s) =>
        s.id === 'a' ? { ...s, others: [{ system: SYSTEM, role: 'phase C', probability }] } : s,
      );
      return planHypotheses(mapOf(said), BELIEF, CHECKS).filter((h) => h.label?.code === 'verify.rules-out.role');
    };
    expect(other(0.003)).toHaveLength(1);
    expect(other(0.0029)).toHaveLength(0);
    expect(other(0.1)[0]!.shows[0]).toBe(true);
  });
});

describe('what a check is worth', () => {
  const hypothesis = (probability: number, predicts: readonly (number | null)[], name = 'x'): PlanHypothesis => ({
    probability,
    label: { code: name },
    predicts,
    shows: predicts.map((p) => p === 0),
  });

  it('is its entropy in bits (Shannon 1948): one for an even choice of two, two for four, none for one', () => {
    const even = (values: readonly (number | null)[]) =>
      informationBits(
        0,
        values.map((v) => hypothesis(1 / values.length, [v])),
      );
    expect(even([0, 120])).toBeCloseTo(1, 12);
    expect(even([0, 120, 208, null])).toBeCloseTo(2, 12);
    expect(even([120, 120])).toBe(0);
    expect(even([Number.POSITIVE_INFINITY, 0])).toBeCloseTo(1, 12);
    expect(even([60, -60])).toBeCloseTo(1, 12);
    // Twin: what a meter does not tell apart is no information.
    expect(even([120, 120.5])).toBe(0);
    expect(informationBits(0, [hypothesis(0.9, [0]), hypothesis(0.1, [120])])).toBeCloseTo(0.469, 3);
    expect(informationBits(7, [hypothesis(0.5, [0]), hypothesis(0.5, [120])])).toBe(0);
  });

  it('is told by the likeliest three ways of being wrong that it would show', () => {
    const list = [0.01, 0.04, 0.02, 0.03].map((p) => hypothesis(p, [0], `p${p}`));
    expect(rulesOut(0, [...list, hypothesis(0.5, [120], 'none')]).map((m) => m.code)).toEqual([
      'p0.04',
      'p0.03',
      'p0.02',
    ]);
  });
});

describe('what the last reading changed', () => {
  let full: readonly Reading[];
  beforeEach(() => {
    full = asClaimed(MAP, OPTIONS);
  });
  const changes = (readings: readonly Reading[]) => judge(MAP, readings, OPTIONS).changes;

  it('is told of each conductor whose standing moved, from what to what', () => {
    const said = changes(full);
    const metered = said.filter((m) => m.code === 'verify.change.metered');
    expect(metered.length).toBeGreaterThan(0);
    for (const m of metered) expect(m.values?.was).toBe('by color');
    expect(said.some((m) => m.code === 'verify.change.role')).toBe(false);
  });

  it('twin: a reading that moves nothing changes nothing', () => {
    expect(changes(full.slice(0, 1))).toEqual([]);
    expect(changes([])).toEqual([]);
  });

  it('is a role where the readings of a pair say that two poles are exchanged', () => {
    const poles = (a: number, b: number) => [
      read(on('a'), pole(SYSTEM, 'phase A'), a, { confirmed: true }),
      read(on('a'), pole(SYSTEM, 'phase B'), b, { confirmed: true }),
    ];
    const role = changes(poles(208, 0)).find((m) => m.code === 'verify.change.role');
    const disputed = changes(poles(208, 0)).find((m) => m.code === 'verify.change.disputed');
    // Either the role moved with the second reading or it had moved with the first: in both it is disputed by then.
    const verdict = judge(MAP, poles(208, 0), OPTIONS);
    expect(verdict.conductors.find((c) => c.conductor === 'a')?.standing).toBe('disputed');
    if (role) expect(role.values).toMatchObject({ conductor: 'a', from: 'phase A', to: 'phase B' });
    expect(role ?? disputed ?? 'moved before').toBeTruthy();
    expect(changes(poles(0, 208)).some((m) => m.code === 'verify.change.role')).toBe(false);
  });
});

describe('reasons for a contradiction', () => {
  it('are at most five, likeliest first, and name a check that would settle it', () => {
    const contradicting = asClaimed(MAP, OPTIONS).map((r) =>
      r.from.kind === 'conductor' && r.from.conductor === 'a' && r.to.kind === 'ground' && r.function === 'AC volts'
        ? { ...r, value: 61, confirmed: true }
        : r,
    );
    const { explanations } = judge(MAP, contradicting, OPTIONS);
    expect(explanations.length).toBeGreaterThan(0);
    expect(explanations.length).toBeLessThanOrEqual(5);
    const odds = explanations.map((e) => e.probability);
    expect([...odds].sort((p, q) => q - p)).toEqual(odds);
    for (const p of odds) expect(p).toBeLessThanOrEqual(1);
  });

  it('are exchanged phases where two poles read so', () => {
    const exchanged = [
      read(on('a'), pole(SYSTEM, 'phase A'), 208, { confirmed: true }),
      read(on('b'), pole(SYSTEM, 'phase B'), 208, { confirmed: true }),
      read(on('a'), pole(SYSTEM, 'phase B'), 0.2, { confirmed: true }),
      read(on('b'), pole(SYSTEM, 'phase A'), 0.2, { confirmed: true }),
      read(on('a'), bar, 120),
      // The one reading that ties the two: without it each is explained by itself.
      read(on('a'), on('b'), 208),
    ];
    const [first] = judge(MAP, exchanged, OPTIONS).explanations;
    expect(first?.message.code).toBe('verify.explain.swapped');
    expect([first?.message.values?.first, first?.message.values?.second].sort()).toEqual(['a', 'b']);
    const apart = judge(MAP, exchanged.slice(0, -1), OPTIONS).explanations.map((e) => e.message.code);
    expect(apart).not.toContain('verify.explain.swapped');
    expect(apart).toContain('verify.explain.other-role');
    // Twin: with its own pole at 0 V nothing is to be explained.
    expect(judge(MAP, [read(on('a'), pole(SYSTEM, 'phase A'), 0.2)], OPTIONS).explanations).toEqual([]);
  });
});

describe('polarity', () => {
  it('is reversed where the neutral reads 120 V to ground and the line nothing', () => {
    const reversed = [
      read(on('a'), ground, 0.3, { confirmed: true }),
      read(on('n'), ground, 119.5, { confirmed: true }),
      read(on('a'), on('n'), 119.8, { confirmed: true }),
      read(on('n'), pole(SYSTEM, 'phase A'), 0.2, { confirmed: true }),
      read(on('a'), bar, 0.1, { confirmed: true }),
    ];
    const said = judge(MAP, reversed, OPTIONS).explanations.map((e) => e.message);
    expect(said[0]?.code).toBe('verify.explain.reversed-polarity');
    expect([said[0]?.values?.first, said[0]?.values?.second].sort()).toEqual(['a', 'n']);
  });
});

describe('a plan', () => {
  it('names with each check what it is expected to show, in volts of the claim', () => {
    const plan = planChecks(MAP, [], OPTIONS);
    const pair = plan.next.find((c) => c.id.includes('conductor a | conductor b'));
    expect(pair?.expected[0]?.nominal).toBeCloseTo(208, 0);
    expect(pair?.informationBits).toBeGreaterThanOrEqual(0);
  });
});
