import { describe, expect, test } from 'vitest';
import { placePhoto } from '../../src/app/state/place-photo';
import { EMPTY_TURNOVER } from '../../src/flow';

const AT = { id: 't1', panel: 'LP1', space: 3 };
const SAID = { by: 'Invented Tester', at: '2026-11-25T10:00:00Z' };

describe('placing a photo at a termination', () => {
  test('keeps who said so, and that it was said by hand', () => {
    const { places } = placePhoto(EMPTY_TURNOVER, 'p1', AT, SAID);
    expect(places).toEqual([{ photo: 'p1', panel: 'LP1', space: 3, termination: 't1', how: 'by hand', ...SAID }]);
  });

  test('the second photo there counts as taken after a correction', () => {
    const twice = placePhoto(placePhoto(EMPTY_TURNOVER, 'p1', AT, SAID), 'p2', AT, SAID);
    expect(twice.places.map((p) => p.after)).toEqual([undefined, true]);
  });

  test('the same photo again replaces its place; one elsewhere stays (twin)', () => {
    const elsewhere = { ...AT, id: 't2' };
    const once = placePhoto(placePhoto(EMPTY_TURNOVER, 'p1', elsewhere, SAID), 'p1', AT, SAID);
    const again = placePhoto(once, 'p1', AT, SAID);
    expect(again.places.map((p) => p.termination)).toEqual(['t2', 't1']);
  });

  test('a neutral bar has no space', () => {
    const { places } = placePhoto(EMPTY_TURNOVER, 'p1', { ...AT, space: null }, SAID);
    expect(places[0]).not.toHaveProperty('space');
  });
});
