import { describe, expect, it } from 'vitest';
import type { CheckCondition, Reading, Standing } from '../../src/flow';
import { judge, planChecks } from '../../src/verify';
import { bar, mapOf, on, read, type Said } from './fixtures';
import { METER } from './sim/probe';

const OPTIONS = { meter: METER };
const LOADED = 'AC volts, low impedance' as const;
const THREE_WAY: readonly Said[] = [
  { id: 's', system: 'us-switch-legs', role: 'switch leg' },
  { id: 't1', system: 'us-switch-legs', role: 'traveler' },
  { id: 't2', system: 'us-switch-legs', role: 'traveler' },
];
const MAP = mapOf(THREE_WAY);

const look = (id: string, condition: CheckCondition, live: boolean): Reading =>
  read(on(id), bar, live ? 118 : 0.3, { function: LOADED, condition });

/** A pair of three-way switches as wired: the feed reaches one traveler, the far switch picks one for the leg. */
const honest = (first: string, second: string): Reading[] => [
  look(first, 'position 1', true),
  look(first, 'position 2', false),
  look(first, 'position 1, far switch moved', true),
  look(second, 'position 1', false),
  look(second, 'position 2', true),
  look(second, 'position 1, far switch moved', false),
];
const LEG = [
  look('s', 'switch on', true),
  look('s', 'switch off', false),
  look('s', 'switch on, both switches moved', true),
];

const standing = (readings: readonly Reading[]): Record<string, Standing> =>
  Object.fromEntries(judge(MAP, readings, OPTIONS).conductors.map((c) => [c.conductor, c.standing]));

describe('switch legs and travelers', () => {
  it('asks for both positions, the far switch, and both ways to light it', () => {
    const conditions = new Set(planChecks(MAP, [], OPTIONS).next.map((c) => c.condition));
    for (const wanted of [
      'switch on',
      'switch off',
      'switch on, both switches moved',
      'position 1',
      'position 2',
      'position 1, far switch moved',
    ])
      expect(conditions).toContain(wanted);
  });

  it('expects of a traveler either the line voltage or nothing', () => {
    const check = planChecks(MAP, [], OPTIONS).next.find((c) => c.condition === 'position 1');
    expect(check?.expected.map((e) => Math.round(e.nominal))).toEqual([120, 0]);
  });

  it('proves a pair whichever of the two is called first', () => {
    expect(standing([...honest('t1', 't2'), ...LEG])).toEqual({ s: 'metered', t1: 'metered', t2: 'metered' });
    expect(standing([...honest('t2', 't1'), ...LEG])).toEqual({ s: 'metered', t1: 'metered', t2: 'metered' });
  });

  it('disputes a pair in which one is a switch leg: it follows the far switch', () => {
    const [, , , ...second] = honest('t1', 't2');
    const leg = [
      look('t2', 'position 1', false),
      look('t2', 'position 2', true),
      look('t2', 'position 1, far switch moved', true),
    ];
    expect(second).toHaveLength(3);
    const found = standing([...honest('t1', 't2').slice(0, 3), ...leg, ...LEG]);
    expect([found.t1, found.t2]).toEqual(['disputed', 'disputed']);
  });

  it('disputes a switch leg that is a traveler: the other way of lighting leaves it without voltage', () => {
    const found = standing([
      ...honest('t1', 't2'),
      ...LEG.slice(0, 2),
      look('s', 'switch on, both switches moved', false),
    ]);
    expect(found.s).toBe('disputed');
  });

  it('never proves a traveler without its partner', () => {
    const alone = mapOf(THREE_WAY.filter((s) => s.id === 't1'));
    const verdict = judge(alone, honest('t1', 't2').slice(0, 3), OPTIONS);
    expect(verdict.conductors[0]?.standing).toBe('by color');
  });
});
