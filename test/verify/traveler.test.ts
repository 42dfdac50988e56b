import { describe, expect, it } from 'vitest';
import type { CheckCondition, Reading } from '../../src/flow';
import type { Belief } from '../../src/verify/agreement';
import { claimsOf } from '../../src/verify/claim';
import { modelsFor } from '../../src/verify/models';
import { bandOptions } from '../../src/verify/options';
import { judgeTraveler } from '../../src/verify/traveler';
import { bar, mapOf, on, read } from './fixtures';
import { METER } from './sim/probe';

const MAP = mapOf([
  { id: 't1', system: 'us-switch-legs', role: 'traveler' },
  { id: 't2', system: 'us-switch-legs', role: 'traveler' },
]);
const BELIEF: Belief = {
  claims: new Map(claimsOf(MAP).map((c) => [c.conductor, c])),
  models: modelsFor(MAP),
  band: bandOptions({ meter: METER }),
};
const look = (id: string, condition: CheckCondition, value: Reading['value']): Reading =>
  read(on(id), bar, value, { function: 'AC volts, low impedance', condition });
const judge = (readings: readonly Reading[]) => judgeTraveler('t1', 't2', readings, BELIEF);
const ids = (readings: readonly Reading[]) => readings.map((r) => r.id);

/** A three-way switch: exactly one of the pair is live, the other position exchanges them (geometry of the switch). */
describe('a pair of travelers', () => {
  it('agrees where the positions exchange them, whichever is live first', () => {
    for (const [one, two] of [
      [120, 0.2],
      [0.2, 120],
    ] as const) {
      const readings = [
        look('t1', 'position 1', one),
        look('t1', 'position 2', two),
        look('t2', 'position 1', two),
        look('t2', 'position 2', one),
      ];
      expect(judge(readings)).toEqual({ agree: ids(readings), contradict: [] });
    }
  });

  it('is in dispute as a whole where one reading does not follow: which, they do not say', () => {
    const readings = [look('t1', 'position 1', 120), look('t1', 'position 2', 120), look('t2', 'position 1', 0.1)];
    expect(judge(readings)).toEqual({ agree: [], contradict: ids(readings) });
  });

  it('is in dispute where a voltage is neither the line nor nothing', () => {
    const odd = [look('t1', 'position 1', 62)];
    expect(judge(odd)).toEqual({ agree: [], contradict: ids(odd) });
    const after = [look('t1', 'position 1', 120), look('t1', 'position 2', 62)];
    expect(judge(after)).toEqual({ agree: [], contradict: ids(after) });
  });

  it('hears nothing in readings of others, without a position, without a number, or to what nobody claims', () => {
    const silent = [
      look('t9', 'position 1', 120),
      look('t1', 'switch on', 120),
      look('t1', 'position 1', 'OL'),
      read(on('t1'), on('nobody'), 120, { condition: 'position 1' }),
    ];
    expect(judge(silent)).toEqual({ agree: [], contradict: [] });
    // Twin: a reading that counts is heard among them.
    const heard = look('t1', 'position 1', 120);
    expect(judge([...silent, heard])).toEqual({ agree: [heard.id], contradict: [] });
  });
});
