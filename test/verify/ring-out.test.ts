import { describe, expect, it } from 'vitest';
import type { CheckCondition, Reading } from '../../src/flow';
import { isNumbered, judge, numberingStep, planDeEnergized, SAFETY_STEPS, unacknowledged } from '../../src/verify';
import { ground, mapOf, on, read, WYE_208 } from './fixtures';
import { METER } from './sim/probe';

const MAP = mapOf(WYE_208);
const OPTIONS = { meter: METER };
const BOTH: CheckCondition = 'supply off, both ends lifted';
const BONDED: CheckCondition = 'supply off, far end bonded';

const ring = (conductor: string, condition: CheckCondition, value: Reading['value']): Reading =>
  read(on(conductor), ground, value, { function: 'continuity', condition });
const stateOf = (conductor: string, readings: readonly Reading[], options = OPTIONS) =>
  planDeEnergized(MAP, readings, options).conductors.find((c) => c.conductor === conductor);

describe('ringing out with the supply proven off (common practice, no source)', () => {
  it('finds a conductor that is open while lifted and closed with its far end bonded, the grounding conductor too', () => {
    for (const id of ['a', 'n', 'g'])
      expect(stateOf(id, [ring(id, BOTH, 'OL'), ring(id, BONDED, 0.3)])?.state).toBe('found');
  });

  it('asks for the bond only after the conductor read open', () => {
    const plan = planDeEnergized(MAP, [ring('a', BOTH, 'OL')], OPTIONS);
    expect(plan.checks.filter((c) => c.id.includes('conductor a')).map((c) => c.condition)).toEqual([BONDED]);
    expect(plan.checks).toHaveLength(9);
  });

  it('does not find one that is tied to ground on the way, and says what to look for', () => {
    const tied = stateOf('a', [ring('a', BOTH, 0.4), ring('a', BONDED, 0.3)]);
    expect(tied).toMatchObject({ state: 'contradicts', why: { code: 'verify.ring.tied' } });
  });

  it('does not find one whose other end was bonded, nor one read neither open nor closed', () => {
    expect(stateOf('a', [ring('a', BOTH, 'OL'), ring('a', BONDED, 'OL')])).toMatchObject({
      state: 'contradicts',
      why: { code: 'verify.ring.not-this-end' },
    });
    expect(stateOf('a', [ring('a', BOTH, 4700)])?.state).toBe('contradicts');
  });

  it('a second look replaces the first; one taken back or made before an edit does not count', () => {
    const wrong = ring('a', BONDED, 'OL');
    const again = { ...ring('a', BONDED, 0.2), supersedes: wrong.id };
    expect(stateOf('a', [ring('a', BOTH, 'OL'), wrong, again])?.state).toBe('found');
    const back = { ...ring('a', BOTH, 'OL'), takenBack: { by: 'x', at: '2026-01-05T11:00:00Z' } };
    expect(stateOf('a', [back])?.state).toBe('not yet');
    const edited = { ...OPTIONS, edited: { a: '2026-01-06T10:00:00Z' } };
    expect(stateOf('a', [ring('a', BOTH, 'OL'), ring('a', BONDED, 0.3)], edited)?.state).toBe('not yet');
  });

  it('a tone is offered and kept, and is a hint only: it finds nothing alone and weighs nothing', () => {
    const tone = (value: 'tone' | 'no tone') => read(on('a'), ground, value, { function: 'tone', condition: BOTH });
    expect(planDeEnergized(MAP, [], OPTIONS).tones).toHaveLength(5);
    const heard = planDeEnergized(MAP, [tone('tone')], OPTIONS);
    expect(heard.tones.map((c) => c.id).filter((id) => id.includes('conductor a'))).toEqual([]);
    expect(heard.conductors.find((c) => c.conductor === 'a')).toMatchObject({ state: 'not yet', tone: 'tone' });
    expect(judge(MAP, [tone('tone')], OPTIONS).map).toEqual(MAP);
    const rung = [ring('a', BOTH, 'OL'), ring('a', BONDED, 0.3)];
    expect(stateOf('a', [tone('tone'), ...rung])?.state).toBe('found');
    // Twin: closed, and yet no tone came through.
    expect(stateOf('a', [tone('no tone'), ...rung])).toMatchObject({
      state: 'contradicts',
      why: { code: 'verify.ring.no-tone' },
    });
  });

  it('never makes anything metered, however complete it is', () => {
    const all = WYE_208.flatMap(({ id }) => [ring(id, BOTH, 'OL'), ring(id, BONDED, 0.2)]);
    expect(planDeEnergized(MAP, all, OPTIONS).checks).toEqual([]);
    expect(judge(MAP, all, OPTIONS).conductors.map((c) => c.standing)).toEqual(Array(5).fill('by color'));
  });

  it('the same number at both ends holds for a conductor that was found, and only until it is edited', () => {
    const found = stateOf('a', [ring('a', BOTH, 'OL'), ring('a', BONDED, 0.3)]);
    if (!found) throw new Error('no such conductor');
    const said = [{ step: numberingStep('a'), by: 'x', at: '2026-01-05T11:00:00Z' }];
    expect(isNumbered(found, said)).toBe(true);
    expect(isNumbered({ ...found, state: 'open' }, said)).toBe(false);
    expect(isNumbered({ ...found, conductor: 'b' }, said)).toBe(false);
    expect(isNumbered(found, said, { edited: { a: '2026-01-05T12:00:00Z' } })).toBe(false);
  });
});

describe('the steps before anything is lifted', () => {
  const moment = 'before anything is lifted';
  const steps = SAFETY_STEPS.filter((s) => s.moment === moment);
  const sign = (minute: (i: number) => number) =>
    steps.map((s, i) => ({
      step: s.id,
      by: 'x',
      at: `2026-01-05T09:${String(minute(i)).padStart(2, '0')}:00Z`,
    }));

  it('are done once all were confirmed one after the other', () => {
    expect(
      unacknowledged(
        moment,
        sign((i) => i),
      ),
    ).toEqual([]);
  });

  it('are asked for again from the first that is missing, or that was confirmed before an earlier one', () => {
    const ids = (from: string) => steps.slice(steps.findIndex((s) => s.id === from)).map((s) => s.id);
    const without = sign((i) => i).filter((a) => a.step !== 'prove-before');
    expect(unacknowledged(moment, without).map((s) => s.id)).toEqual(ids('prove-before'));
    const late = steps.findIndex((s) => s.id === 'prove-before');
    const early = sign((i) => (i === late ? 59 : i));
    expect(unacknowledged(moment, early).map((s) => s.id)).toEqual(ids('absence'));
  });
});
