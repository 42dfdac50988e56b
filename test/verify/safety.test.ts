import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { notices, planChecks, planDeEnergized, SAFETY_STEPS, stops, unacknowledged } from '../../src/verify';
import { say } from '../../src/words';
import { VERIFY_WORDS } from '../../src/words/en/verify';
import { mapOf, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const MAP = mapOf(WYE_208);
const codes = (map = MAP, options: Parameters<typeof stops>[1] = {}): string[] =>
  stops(map, options).map((m) => m.code);

describe('stops', () => {
  it('stops without a meter of a stated category, and only then, on an ordinary panel', () => {
    expect(codes()).toEqual(['verify.stop.no-rated-meter']);
    expect(codes(MAP, { meter: METER })).toEqual([]);
  });

  it('asks the category for the place: II outlets, III panels, IV service (IEC 61010, read)', () => {
    const rated = (category: 'II' | 'III' | 'IV', place: 'outlet' | 'panel' | 'service') =>
      codes(MAP, { meter: { ...METER, category }, place }).includes('verify.stop.category');
    expect([rated('II', 'outlet'), rated('III', 'panel'), rated('IV', 'service')]).toEqual([false, false, false]);
    expect([rated('II', 'panel'), rated('III', 'service'), rated('II', 'service')]).toEqual([true, true, true]);
  });

  it('stops when the meter is rated below the highest voltage', () => {
    const map = mapOf(WYE_208.map((s) => ({ ...s, system: 'us-480y277' })));
    expect(codes(map, { meter: { ...METER, ratedVolts: 300 } })).toContain('verify.stop.rated-volts');
    expect(codes(map, { meter: { ...METER, ratedVolts: 600 } })).toEqual([]);
  });

  it('stops above 600 V, for wet gear, unknown systems, unconfirmed isolated power and DC of unknown volts', () => {
    const dc = mapOf([{ id: 'p', system: 'us-pv-dc', role: 'positive' }]);
    expect(codes(dc, { meter: METER })).toContain('verify.stop.dc-volts');
    expect(codes(dc, { meter: { ...METER, ratedVolts: 1500 }, posted: { 'us-pv-dc': 900 } })).toEqual([
      'verify.stop.over-600',
    ]);
    expect(codes(MAP, { meter: METER, wetOrDamaged: true })).toEqual(['verify.stop.wet-or-damaged']);
    const isolated = mapOf([{ id: 'o', system: 'us-isolated-power', role: 'isolated conductor 1' }]);
    expect(codes(isolated, { meter: METER })).toEqual(['verify.stop.isolated']);
    const site = { jurisdiction: 'US' as const, systems: ['us-isolated-power'], legend: [], groups: [], spaces: {} };
    expect(codes(isolated, { meter: METER, site })).toEqual([]);
    expect(codes({ ...MAP, systems: [] }, { meter: METER })).toEqual(['verify.stop.unknown-system']);
    expect(codes(mapOf([{ id: 'q', system: 'nowhere', role: 'phase A' }]), { meter: METER })).toContain(
      'verify.stop.unknown-system',
    );
  });

  it('are part of every plan', () => {
    expect(planChecks(MAP, []).stops.map((m) => m.code)).toEqual(['verify.stop.no-rated-meter']);
  });
});

describe('notices', () => {
  const said = (map = MAP, options: Parameters<typeof notices>[1] = {}) => notices(map, options).map((m) => m.code);

  it('warns of a meter without a low-impedance range, of two systems, and of floating ground', () => {
    expect(said(MAP, { meter: METER })).toEqual([]);
    expect(said(MAP, { meter: { ...METER, lowImpedance: false } })).toEqual(['verify.notice.no-low-impedance']);
    const both = mapOf([...WYE_208, { id: 'x', system: 'us-480y277', role: 'phase A' }]);
    expect(said(both)).toEqual(['verify.notice.two-systems']);
    const delta = mapOf([{ id: 'x', system: 'us-480-delta', role: 'phase A' }]);
    expect(said(delta)).toEqual(['verify.notice.floating']);
  });
});

describe('steps to be acknowledged', () => {
  it('prove the tester before and after the test for absence, in that order', () => {
    const order = SAFETY_STEPS.map((s) => s.id);
    expect(order.indexOf('prove-before')).toBeLessThan(order.indexOf('absence'));
    expect(order.indexOf('absence')).toBeLessThan(order.indexOf('prove-after'));
    expect(order.indexOf('lockout')).toBeLessThan(order.indexOf('prove-before'));
  });

  it('carry a source and how it was checked', () => {
    for (const step of SAFETY_STEPS) expect(step.source.length).toBeGreaterThan(5);
    expect(SAFETY_STEPS.filter((s) => s.status === 'read').map((s) => s.id)).toContain('absence');
  });

  it('stay open until someone put a name to each', () => {
    const all = unacknowledged('before any reading', []);
    expect(all.length).toBeGreaterThan(4);
    const sign = (by: string) => all.map((s) => ({ step: s.id, by, at: '2026-01-05T09:00:00Z' }));
    expect(unacknowledged('before any reading', sign('invented tester'))).toEqual([]);
    expect(unacknowledged('before any reading', sign(' '))).toEqual(all);
  });

  it('come before the plan with the supply off, which rings out every conductor alone', () => {
    const plan = planDeEnergized(MAP);
    expect(plan.before.some((s) => s.id === 'absence')).toBe(true);
    expect(plan.checks).toHaveLength(10);
    expect(new Set(plan.checks.map((c) => c.function))).toEqual(new Set(['continuity']));
    const a = plan.checks.filter((c) => c.id.includes('conductor a'));
    expect(a.map((c) => c.expected[0]?.open)).toEqual([true, undefined]);
  });
});

describe('words', () => {
  const used = (): string[] => {
    const files = ['required', 'plan', 'question', 'explain', 'stops', 'safety', 'judge', 'de-energized', 'hypotheses'];
    const text = files
      .map((f) => readFileSync(new URL(`../../src/verify/${f}.ts`, import.meta.url), 'utf8'))
      .join('\n');
    return [...text.matchAll(/'(verify\.[a-z0-9.-]+)'/g)].flatMap((m) => m[1] ?? []);
  };

  it('has a sentence for every code in use', () => {
    const found = used();
    expect(found.length).toBeGreaterThan(20);
    expect(found.filter((code) => !(code in VERIFY_WORDS))).toEqual([]);
    for (const step of SAFETY_STEPS) expect(say(step.text)).not.toBe(step.text.code);
    for (const c of planChecks(MAP, [], { meter: METER }).next) expect(say(c.why)).not.toBe(c.why.code);
  });

  /** The only place of the word "dead" is the name of the procedure. */
  const forbidden = (text: string): boolean =>
    /\b(safe|safely|dead|identified)\b/i.test(text.replaceAll(/live-dead-live/gi, ''));

  it('never says safe, dead or identified', () => {
    expect(Object.values(VERIFY_WORDS).filter(forbidden)).toEqual([]);
    expect(forbidden('The conductor is dead.')).toBe(true);
    expect(forbidden('Live-dead-live: try it.')).toBe(false);
  });
});
