import { describe, expect, it } from 'vitest';
import { ribbonBody } from '../../src/color/ribbon/body';
import { sampleOf } from '../../src/color/ribbon/samples';
import { mayBeGreenYellow, splitColors, type TwoColors, underFinger } from '../../src/color/ribbon/two-colors';
import { makeRibbon, type RibbonRecipe } from './make-ribbon';

// Linear sRGB of plain plastics, invented.
const RED = [0.42, 0.02, 0.02] as const;
const BLUE = [0.02, 0.08, 0.4] as const;
const GREEN = [0.03, 0.22, 0.05] as const;
const YELLOW = [0.6, 0.45, 0.02] as const;
const GRAY = [0.2, 0.2, 0.2] as const;
const WHITE = [0.8, 0.8, 0.8] as const;

const split = (recipe: RibbonRecipe): TwoColors | null => splitColors(makeRibbon(recipe));
const half = (body: RibbonRecipe['body'], rgb: RibbonRecipe['body']): TwoColors => {
  const found = split({ body, second: { rgb, where: (_, t) => t > 0.15 } });
  if (!found) throw new Error('two colors were drawn');
  return found;
};
/** A split of any two colors, as if it had been found. */
const pair = (base: RibbonRecipe['body'], second: RibbonRecipe['body'], share = 0.4): TwoColors => ({
  base: ribbonBody(makeRibbon({ body: base }))!,
  second: ribbonBody(makeRibbon({ body: second }))!,
  share,
  layout: 'along',
  contrast: 6,
  trust: 1,
  recurs: true,
  lines: { count: 1, dashed: false },
});

describe('a ribbon of two colors', () => {
  it('is split into what was drawn, the larger part as base', () => {
    const { base, second, share } = half(RED, BLUE);
    expect(base.rgb[0]).toBeGreaterThan(base.rgb[2]);
    expect(second.rgb[2]).toBeGreaterThan(second.rgb[0]);
    expect(share).toBeGreaterThan(0.2);
    expect(share).toBeLessThanOrEqual(0.5);
  });

  it('is not split where nothing differs, pixel for pixel, nor where it is too thin or too short to show two', () => {
    expect(split({ body: RED, noise: 0 })).toBeNull();
    expect(
      splitColors({ ...makeRibbon({ body: RED, second: { rgb: BLUE, where: (_, t) => t > 0 } }), widthPx: 5.9 }),
    ).toBeNull();
    expect(
      splitColors({ ...makeRibbon({ body: RED, second: { rgb: BLUE, where: (_, t) => t > 0 } }), length: 5 }),
    ).toBeNull();
    // Twin: the same as wide and as long as must be is.
    expect(
      splitColors({ ...makeRibbon({ body: RED, second: { rgb: BLUE, where: (_, t) => t > 0 } }), widthPx: 6 }),
    ).not.toBeNull();
  });

  it('is not split by colored pixels strewn at random: noise is no stripe', () => {
    expect(split({ body: RED, second: { rgb: BLUE, where: (i, t) => Math.sin(917 * i + 411 * t) > 0.3 } })).toBeNull();
  });

  it('is less believed at the rim, where a neighbor lies as often as a stripe, and in the dark', () => {
    expect(half(RED, BLUE).trust).toBeLessThan(1);
    const inside = split({ body: RED, second: { rgb: BLUE, where: (_, t) => Math.abs(t) < 0.25 } });
    expect(inside?.trust).toBe(1);
    const dim = split({
      body: RED,
      exposure: 0.1,
      noise: 0.0003,
      second: { rgb: BLUE, where: (_, t) => Math.abs(t) < 0.25 },
    });
    expect(dim === null || dim.trust < 1).toBe(true);
  });

  it('tells how the second color lies', () => {
    const layout = (where: (i: number, t: number) => boolean) =>
      split({ body: WHITE, second: { rgb: BLUE, where } })?.layout;
    expect(layout((_, t) => Math.abs(t) < 0.25)).toBe('along');
    expect(layout((i) => i % 10 < 3)).toBe('rings');
    expect(layout((i, t) => (i / 12 + t / 2 + 10) % 1 > 0.6)).toBe('spiral');
    // A single ring is something that crosses.
    expect(layout((i) => i > 10 && i < 16)).toBeUndefined();
  });
});

describe('a finger on one of two colors', () => {
  const [red, blue] = [sampleOf(...RED), sampleOf(...BLUE)];

  it('on a broad second color: the first is a neighbor, and there is no split', () => {
    expect(underFinger(pair(RED, BLUE), blue)).toBeNull();
  });

  it('on the base, or on a narrow stripe, changes nothing', () => {
    const broad = pair(RED, BLUE);
    expect(underFinger(broad, red)).toBe(broad);
    const narrow = pair(RED, BLUE, 0.2);
    expect(underFinger(narrow, blue)).toBe(narrow);
  });

  it('on the yellow of a green-yellow conductor leaves it green-yellow', () => {
    const both = pair(GREEN, YELLOW);
    expect(underFinger(both, sampleOf(...YELLOW))).toBe(both);
    // Twin: two greens are no pair of green and yellow.
    expect(underFinger(pair(GREEN, [0.045, 0.22, 0.05]), sampleOf(0.045, 0.22, 0.05))).toBeNull();
  });
});

describe('what may be a protective conductor', () => {
  it('is yellow on green or green on yellow, also in warm light, and no other pair', () => {
    expect(mayBeGreenYellow(pair(GREEN, YELLOW))).toBe(true);
    expect(mayBeGreenYellow(pair(YELLOW, GREEN))).toBe(true);
    const warm = ([r, g, b]: readonly [number, number, number]) => [1.3 * r, g, 0.6 * b] as const;
    expect(mayBeGreenYellow(pair(warm(GREEN), warm(YELLOW)))).toBe(true);
    for (const [base, second] of [
      [GREEN, RED],
      [GREEN, BLUE],
      [RED, BLUE],
      [GRAY, YELLOW],
      [GREEN, WHITE],
      [YELLOW, RED],
    ] as const)
      expect(mayBeGreenYellow(pair(base, second))).toBe(false);
  });
});
