import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../src/app/state/apply-edit';
import type { Job, KnownLength } from '../../src/flow';
import { changesBetween, migrate } from '../../src/record';
import { job, photo, upright } from './fixtures/findings';

const AT = '2026-11-25T13:00:00.000Z';
const RAIL: KnownLength = {
  ends: [
    [100, 50],
    [380, 50],
  ],
  mm: 35,
  by: 'Invented Tester',
  at: AT,
};
const start = job([photo('p', [upright('a', 100)]), photo('q', [upright('a', 100)])]);
const withScale = (of: Job, scale: KnownLength | null): Job => applyEdit(of, { type: 'scale', photo: 'p', scale }, AT);
const codes = (before: Job, after: Job): string[] => changesBetween(before, after).map((m) => m.code);

describe('a length that the user points out in a photo', () => {
  test('stands in that photo and in the log, and is taken back', () => {
    const said = withScale(start, RAIL);
    expect(said.photos.map((p) => p.scale)).toEqual([RAIL, undefined]);
    expect(changesBetween(start, said)).toEqual([
      { code: 'record.change.length-added', values: { photo: expect.anything(), mm: 35, by: RAIL.by, at: AT } },
    ]);
    expect(codes(said, withScale(said, { ...RAIL, mm: 85.6 }))).toEqual(['record.change.length-changed']);
    const back = withScale(said, null);
    expect(back).toEqual(start);
    expect(codes(said, back)).toEqual(['record.change.length-removed']);
  });

  test('says nothing of colors: no conductor counts as edited, and readings go on to count', () => {
    expect(withScale(start, RAIL).photos[0]!.edits).toEqual(start.photos[0]!.edits);
  });

  test('comes in with a record; twin: one without a length in it is refused', () => {
    expect(migrate(withScale(start, RAIL)).photos[0]!.scale).toEqual(RAIL);
    const same = RAIL.ends[0];
    for (const broken of [
      { ...RAIL, mm: 0 },
      { ...RAIL, mm: -35 },
      { ...RAIL, mm: Number.POSITIVE_INFINITY },
      { ...RAIL, ends: [same, same] as const },
    ])
      expect(() => migrate(withScale(start, broken))).toThrow();
  });
});
