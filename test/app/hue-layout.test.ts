import { describe, expect, test } from 'vitest';
import { type HuePlane, placeLabels } from '../../src/app/screens/conductor/hue-layout';
import type { ColorName } from '../../src/flow';

const oval = (x: number, y: number) => ({ x, y, long: 0.05, short: 0.04, angle: 0 });
/** Three neutrals in the middle, as in the palette, and two colors away from it. */
const plane: HuePlane = {
  reading: oval(0.005, 0),
  names: (
    [
      ['black', 0, 0],
      ['gray', 0.002, -0.002],
      ['white', 0.004, 0.004],
      ['blue', -0.02, -0.2],
      ['red', 0.2, 0.08],
    ] as const
  ).map(([name, x, y]) => ({ name, srgb: [0, 0, 0], ...oval(x, y) })),
  extent: 0.3,
};
const labels = (first: readonly ColorName[] = []) => placeLabels(plane, first);
const at = (name: ColorName) => labels().find((l) => l.name === name)!;

describe('letters in the hue plane', () => {
  test('run into no others and not into the cross', () => {
    const all = labels(['gray']);
    for (const [i, p] of all.entries())
      for (const q of all.slice(i + 1))
        expect(Math.abs(p.x - q.x) >= 24 - 1e-9 || Math.abs(p.y - q.y) >= 14 - 1e-9).toBe(true);
  });

  test('stand in the middle of their region, or near it with a line that leads there', () => {
    expect(at('red').from).toBeNull();
    expect(at('blue').from).toBeNull();
    for (const name of ['black', 'gray', 'white'] as const) {
      const { x, y, from } = at(name);
      expect(from).not.toBeNull();
      expect(Math.hypot(x - from!.x, y - from!.y)).toBeLessThan(45);
      // Nearer to the middle than to the blue below it: nobody takes white for a blue.
      expect(Math.hypot(x, y)).toBeLessThan(Math.hypot(x - at('blue').x, y - at('blue').y));
    }
  });
});
