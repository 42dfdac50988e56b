import { describe, expect, test } from 'vitest';
import { crossingChoices, flipCrossing } from '../../src/app/geometry/flip';
import { polylineLength } from '../../src/app/geometry/polyline';
import type { NamedConductor, Point } from '../../src/flow';
import { nearestOnPolyline } from '../../src/flow';
import { conductor } from './fixtures/findings';

/** Two conductors that cross at (300, 300) at a small angle: easily taken for each other. */
const AT: Point = [300, 300];
const crossing = (other: string, linkProbability: number) => ({
  at: AT,
  with: other,
  overProbability: 0.9,
  linkProbability,
});
const falling: NamedConductor = {
  ...conductor('a', [
    [0, 200],
    [300, 300],
    [600, 400],
  ]),
  ends: ['leaves the picture', 'terminal'],
  crossings: [crossing('b', 0.6)],
  userWord: { name: 'red', by: 'x', at: 'now' },
};
const rising: NamedConductor = {
  ...conductor(
    'b',
    [
      [0, 400],
      [300, 300],
      [560, 213],
    ],
    'blue',
  ),
  ends: ['hidden', 'cut end'],
  crossings: [crossing('a', 0.6)],
};

const farEnds = ({ centerline }: NamedConductor) => [centerline[0], centerline.at(-1)];
/** Each touches what lies at these places. */
const joins = (one: NamedConductor, places: readonly Point[]): boolean =>
  places.every((p) => nearestOnPolyline(one.centerline, p)!.distance < 1);

describe('flipping a crossing', () => {
  const [c, d] = flipCrossing(falling, rising, AT)!;

  test('each goes on as the other did, the way that bends least, and none of the length is lost', () => {
    expect(joins(c, [[0, 200], AT, [560, 213]])).toBe(true);
    expect(joins(d, [[600, 400], AT, [0, 400]])).toBe(true);
    // Twin: not the other exchange, which would turn back on itself.
    expect(joins(c, [[0, 400]])).toBe(false);
    const before = polylineLength(falling.centerline) + polylineLength(rising.centerline);
    expect(polylineLength(c.centerline) + polylineLength(d.centerline)).toBeCloseTo(before, 6);
  });

  test('ends go with their sides, the word does not stay, ids are new and differ', () => {
    expect(c.ends).toEqual(['leaves the picture', 'cut end']);
    expect(d.ends).toEqual(['terminal', 'hidden']);
    expect(c).not.toHaveProperty('userWord');
    expect([c.id, d.id]).toEqual(['ax', 'bx']);
  });

  test('flipped again it is as it was', () => {
    const [e, f] = flipCrossing(c, d, AT)!;
    expect(
      joins(e, [
        [0, 200],
        [600, 400],
      ]),
    ).toBe(true);
    expect(
      joins(f, [
        [0, 400],
        [560, 213],
      ]),
    ).toBe(true);
    expect(farEnds(e)).not.toEqual(farEnds(c));
  });

  test('the crossing stays, now by the user and so sure', () => {
    expect(c.crossings).toEqual([{ at: AT, with: 'bx', overProbability: 0.9, linkProbability: 1 }]);
    expect(crossingChoices(c, [c, d]).map((x) => x.other.id)).toEqual(['bx']);
  });

  test('nothing to exchange where one of them ends', () => {
    expect(
      flipCrossing(
        falling,
        conductor('s', [
          [300, 310],
          [300, 500],
        ]),
        AT,
      ),
    ).toBeNull();
  });
});

describe('which crossings are offered', () => {
  const third = conductor('t', [
    [100, 0],
    [100, 600],
  ]);

  test('the least sure first, and only with conductors that are there', () => {
    const many: NamedConductor = {
      ...falling,
      crossings: [
        { at: [100, 233], with: 't', overProbability: 0.5, linkProbability: 0.95 },
        crossing('b', 0.6),
        { at: [500, 367], with: 'gone', overProbability: 0.5, linkProbability: 0.3 },
      ],
    };
    expect(crossingChoices(many, [many, rising, third]).map((x) => x.other.id)).toEqual(['b', 't']);
  });

  test('a conductor that got another id since is met where it lies', () => {
    const renamed = { ...rising, id: 'split' };
    expect(crossingChoices(falling, [falling, renamed]).map((x) => x.other.id)).toEqual(['split']);
  });
});
