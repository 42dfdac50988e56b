import { describe, expect, it } from 'vitest';
import { lightChangeDeg } from '../../src/color/light/light-change';
import type { FineRibbon } from '../../src/flow';
import { normal, seeded } from './make-ribbon';

type Rgb = readonly [number, number, number];
const COLORS: readonly Rgb[] = [
  [0.35, 0.03, 0.03],
  [0.03, 0.08, 0.3],
  [0.6, 0.6, 0.58],
  [0.04, 0.2, 0.06],
  [0.5, 0.3, 0.03],
];
/** ln (r/g, ln b/g) from the left end of the picture to the right. */
type Change = (share: number) => readonly [number, number];

/** A conductor across a picture 600 px wide, noisy, in light that changes with the place. */
function across(rgb: Rgb, change: Change, random: () => number, from = 0, to = 600): FineRibbon {
  const length = 120;
  const wide = 6;
  const cells = new Float32Array(length * wide * 3);
  for (let i = 0; i < length; i++) {
    const [r, b] = change((from + ((i + 0.5) * (to - from)) / length) / 600);
    for (let j = 0; j < wide; j++)
      [rgb[0] * Math.exp(r), rgb[1], rgb[2] * Math.exp(b)].forEach((v, c) => {
        cells[(i * wide + j) * 3 + c] = Math.max(0, v * (1 + 0.05 * normal(random)));
      });
  }
  return {
    length,
    across: wide,
    stepPx: (to - from) / length,
    widthPx: 20,
    rgb: cells,
    usable: new Uint8Array(length * wide).fill(1),
    noise: 0.01,
    blurPx: 0.5,
    centers: Array.from({ length }, (_, i) => [from + ((i + 0.5) * (to - from)) / length, 100] as const),
    widths: new Float32Array(length).fill(20),
    seen: new Uint8Array(length).fill(1),
    wire: null,
    closer: null,
  };
}

const all = (change: Change, of = COLORS): FineRibbon[] => {
  const random = seeded(3);
  return of.map((rgb) => across(rgb, change, random));
};
/** About what lies between daylight and a warm lamp that the camera half corrected. */
const twoLamps: Change = (x) => {
  const share = 1 / (1 + Math.exp(-(x - 0.5) / 0.08));
  return [0.3 * share, -0.33 * share];
};

describe('the change of the light along the conductors', () => {
  it('two lamps are told, whatever colors the conductors have, by about their distance', () => {
    // The angle between (1, 1, 1) and (e^0.3, 1, e^-0.33) is 14.7 degrees; a line through a step is steeper at the middle.
    expect(lightChangeDeg(all(twoLamps))!).toBeGreaterThan(12);
    expect(lightChangeDeg(all(twoLamps))!).toBeLessThan(23);
    expect(lightChangeDeg(all(twoLamps, COLORS.slice(0, 3)))!).toBeGreaterThan(12);
  });
  it('twin: one lamp is none, nor is one conductor that fades', () => {
    expect(lightChangeDeg(all(() => [0, 0]))).toBe(0);
    const random = seeded(4);
    const faded = across([0.35, 0.03, 0.03], (x) => [-1.2 * x, 0.1 * x], random);
    expect(lightChangeDeg([...all(() => [0, 0]), faded])).toBe(0);
  });
  it('conductors that change each its own way are no lamp', () => {
    const random = seeded(5);
    const own = COLORS.map((rgb, k) => across(rgb, (x) => [0.3 * (k - 2) * x, 0.3 * (2 - k) * x], random));
    expect(lightChangeDeg(own)).toBe(0);
  });
  it('what makes all of them greener toward one end is no lamp: red and blue fall together', () => {
    expect(lightChangeDeg(all((x) => [-0.4 * x, -0.5 * x]))).toBe(0);
  });
  it('two conductors, or none at hand, cannot tell', () => {
    expect(lightChangeDeg(all(twoLamps, COLORS.slice(0, 2)))).toBeNull();
    expect(lightChangeDeg([null, null, null])).toBeNull();
  });
  it('the order of the conductors does not matter', () => {
    const found = all(twoLamps);
    expect(lightChangeDeg([...found].reverse())).toBeCloseTo(lightChangeDeg(found)!, 9);
  });
});
