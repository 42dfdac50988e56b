import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../src/app/state/apply-edit';
import { mayLift, mayMeasure } from '../../src/app/state/may-measure';
import { meterOptions } from '../../src/app/state/meter-options';
import { UNKNOWN_PLACE } from '../../src/app/state/place';
import type { Job, JobPlace } from '../../src/flow';
import { type MeterOptions, SAFETY_STEPS, stops } from '../../src/verify';
import { job, photo, upright } from './fixtures/findings';

const AT = '2026-11-25T13:00:00.000Z';
const signed = (moment: string) =>
  SAFETY_STEPS.filter((s) => s.moment === moment).map((s) => ({ step: s.id, by: 'Invented Tester', at: AT }));
const PANEL: JobPlace = { ...UNKNOWN_PLACE, kind: 'panel', wetOrDamaged: false };
const ready: Job = {
  ...job([photo('p', [upright('a', 100)])]),
  by: 'Invented Tester',
  meter: { category: 'III', ratedVolts: 600, lowImpedance: true },
  place: PANEL,
  acknowledgements: [...signed('before any reading'), ...signed('before anything is lifted')],
};
const at = (place: Partial<JobPlace>): Job => ({ ...ready, place: { ...PANEL, ...place } });
const optionsOf = (of: Job): MeterOptions => {
  const [only] = of.photos;
  if (!only) throw new Error('no photo');
  return meterOptions(of, only);
};

describe('the place of a job', () => {
  test('nothing is measured before place and gear have been said', () => {
    expect(mayMeasure(ready)).toBe(true);
    expect(mayMeasure(at({ kind: null }))).toBe(false);
    expect(mayMeasure(at({ wetOrDamaged: null }))).toBe(false);
    const { place: _, ...unsaid } = ready;
    expect(mayMeasure(unsaid)).toBe(false);
  });

  test('reaches the rules that stop: category by place (IEC 61010-2-030), wet gear, volts of a nameplate', () => {
    const map = {
      systems: [{ system: 'us-pv-dc', probability: 0.9 }],
      assignments: [],
      eliminated: [],
      findings: [],
    };
    const codes = (place: Partial<JobPlace>) => stops(map, optionsOf(at(place))).map((m) => m.code);
    expect(codes({})).toEqual(['verify.stop.dc-volts']);
    expect(codes({ postedVolts: { 'us-pv-dc': 400 } })).toEqual([]);
    expect(codes({ postedVolts: { 'us-pv-dc': 900 } })).toContain('verify.stop.over-600');
    expect(codes({ postedVolts: { 'us-pv-dc': 400 }, kind: 'service' })).toEqual(['verify.stop.category']);
    expect(codes({ postedVolts: { 'us-pv-dc': 400 }, wetOrDamaged: true })).toEqual(['verify.stop.wet-or-damaged']);
  });

  test('motors ask for the rotation', () => {
    expect(optionsOf(at({ motors: true })).motors).toBe(true);
    expect(optionsOf(ready).motors).toBe(false);
  });

  test('the supply being on again takes back everything that was confirmed about its being off', () => {
    const off = at({ way: 'supply off' });
    expect(mayLift(off)).toBe(true);
    const back = applyEdit(off, { type: 'supply back' }, AT);
    expect([mayLift(back), mayMeasure(back)]).toEqual([false, true]);
    const on = applyEdit(off, { type: 'place', place: { ...PANEL, way: 'supply on' } }, AT);
    expect(mayLift(on)).toBe(false);
    // So does a reading taken under voltage.
    const reading = {
      id: 'r',
      from: { kind: 'conductor', conductor: 'a' },
      to: { kind: 'ground' },
      function: 'AC volts',
      value: 119,
      at: AT,
      by: 'Invented Tester',
    } as const;
    expect(mayLift(applyEdit(off, { type: 'reading', photo: 'p', reading }, AT))).toBe(false);
    // Twins: one taken with the supply off does not, a tone neither.
    const lifted = { ...reading, function: 'continuity', condition: 'supply off, lifted', value: 'OL' } as const;
    const tone = { ...lifted, function: 'tone', condition: 'supply off, both ends lifted', value: 'tone' } as const;
    for (const other of [lifted, tone])
      expect(mayLift(applyEdit(off, { type: 'reading', photo: 'p', reading: other }, AT))).toBe(true);
    // Twin: saying something else about the place does not.
    expect(mayLift(applyEdit(off, { type: 'place', place: { ...PANEL, way: 'supply off', motors: true } }, AT))).toBe(
      true,
    );
  });
});
