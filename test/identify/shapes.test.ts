import { describe, expect, it } from 'vitest';
import { SYSTEMS } from '../../src/identify';
import { GROUND, GROUNDED, type Roster } from '../../src/identify/infer/members';
import { extrasProbability, shapeOf } from '../../src/identify/infer/shapes';
import { SHAPES } from '../../src/identify/model/priors';

/** Circuit roles of a system, ungrounded first. */
function roster(system: string): Roster {
  const all = SYSTEMS[system]!.roles.filter((role) => role !== GROUND);
  const hot = all.filter((role) => role !== GROUNDED);
  return { system, roles: [...hot, ...all.filter((role) => role === GROUNDED)], hot: hot.length };
}

const MAINS = Object.keys(SYSTEMS).filter((id) => SYSTEMS[id]!.kind !== 'auxiliary');
const sum = (shape: Float64Array): number => shape.reduce((a, b) => a + b, 0);
/** Of the sets of this shape, those with at least one line. */
const withLine = (shape: Float64Array, hot: number): number =>
  shape.reduce((all, p, mask) => (mask & ((1 << hot) - 1) ? all + p : all), 0);

describe('what one set of a system shows', () => {
  it.each(MAINS)('is a distribution, pulled, beside switch legs and in cable (%s)', (id) => {
    const of = roster(id);
    for (const [switched, cabled] of [
      [false, false],
      [true, false],
      [true, true],
    ] as const) {
      const shape = shapeOf(of, switched, cabled);
      expect(shape).toHaveLength(1 << of.roles.length);
      for (const p of shape) {
        expect(p).toBeGreaterThanOrEqual(0);
        expect(p).toBeLessThanOrEqual(1);
      }
      expect(sum(shape)).toBeCloseTo(1, 12);
    }
  });

  it('is alike for sets that only differ in which line they carry', () => {
    const { hot } = roster('us-208y120');
    const shape = shapeOf(roster('us-208y120'), false, false);
    for (const neutral of [0, 1 << hot]) {
      expect(shape[neutral | 1]).toBeCloseTo(shape[neutral | 2]!, 12);
      expect(shape[neutral | 3]).toBeCloseTo(shape[neutral | 6]!, 12);
    }
  });

  it('has a neutral with its lines as often as the table says, and another share without', () => {
    const { hot } = roster('us-208y120');
    const shape = shapeOf(roster('us-208y120'), false, false);
    const row = SHAPES[hot]!;
    for (const lines of [1, 2, 3]) {
      const mask = (1 << lines) - 1;
      const ratio = shape[mask | (1 << hot)]! / shape[mask]!;
      expect(ratio).toBeCloseTo(row.with[lines]! / row.without[lines]!, 9);
      expect(ratio).not.toBeCloseTo(1, 3);
    }
  });

  // Common practice, no source: a lighting box is fed by one line; of its cables some go on to a switch, without a line.
  it('beside switch legs has one line more often, and in cable often none', () => {
    const id = 'us-120-240-1ph';
    const { hot } = roster(id);
    const [pulled, switched, cabled] = [
      shapeOf(roster(id), false, false),
      shapeOf(roster(id), true, false),
      shapeOf(roster(id), true, true),
    ];
    const neutral = 1 << hot;
    expect(switched[neutral | 1]).toBeGreaterThan(pulled[neutral | 1]!);
    expect(switched[neutral | 3]).toBeLessThan(pulled[neutral | 3]!);
    for (const shape of [pulled, switched]) expect(withLine(shape, hot)).toBeGreaterThan(0.7);
    expect(withLine(cabled, hot)).toBeGreaterThan(0.3);
    expect(withLine(cabled, hot)).toBeLessThan(0.6);
    // NEC 404.2(C) since 2011, from memory: the grounded conductor is at most switch places, also without a line.
    expect(cabled[neutral]).toBeGreaterThan(4 * cabled[0]!);
  });

  it('of a system without a grounded conductor is nothing at all where a cable carries no line', () => {
    const { hot } = roster('us-240-delta');
    const shape = shapeOf(roster('us-240-delta'), true, true);
    expect(shape[0]).toBeCloseTo(1 - withLine(shape, hot), 12);
    expect(shape[0]).toBeGreaterThan(0.4);
  });
});

describe('what rides along with a set', () => {
  it.each([
    [false, false],
    [true, false],
    [true, true],
  ])('is a distribution over how many (switch legs %s, cable %s)', (auxiliary, cabled) => {
    let all = 0;
    for (let k = 0; k < 60; k++) {
      const p = extrasProbability(k, auxiliary, cabled);
      expect(p).toBeGreaterThan(0);
      all += p;
    }
    expect(all).toBeCloseTo(1, 6);
  });

  it('is seldom nothing in a cable, which has a ground (UL 719, from memory), and fewer the more there are', () => {
    expect(extrasProbability(0, true, true)).toBeLessThan(extrasProbability(1, true, true) / 4);
    for (let k = 4; k < 10; k++)
      expect(extrasProbability(k + 1, true, false)).toBeLessThan(extrasProbability(k, true, false));
  });
});
