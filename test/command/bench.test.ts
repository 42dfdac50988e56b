import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readNaively } from '../../src/command/bench/naive';
import { growthPlot } from '../../src/command/bench/plot';
import { fitPower, median } from '../../src/command/bench/statistics';

describe('figures of the bench', () => {
  it('finds the exponent that points were made with', () => {
    const points = [1, 3, 10, 40].map((x) => [x, 7 * x ** 1.5] as const);
    const { factor, exponent } = fitPower(points);
    expect(exponent).toBeCloseTo(1.5, 10);
    expect(factor).toBeCloseTo(7, 8);
    expect(fitPower(points.map(([x, y]) => [x, y * x] as const)).exponent).toBeCloseTo(2.5, 10);
  });

  it('takes the value in the middle', () => {
    expect(median([5, 1, 9])).toBe(5);
    expect(median([])).toBeNaN();
  });

  it('draws every point', () => {
    const points = [[1, 10] as const, [10, 100] as const];
    const svg = growthPlot([{ name: 'a', unit: 'b', points, fit: fitPower(points) }]);
    expect(svg.match(/<circle/g)).toHaveLength(2);
    expect(svg).toContain('b ^ 1.00');
    expect(svg).not.toContain('NaN');
  });

  it('the naive way finds a red bar on gray and calls it red, and nothing beside it', async () => {
    const bar = { create: { width: 300, height: 20, channels: 3 as const, background: '#b4202a' } };
    const bytes = await sharp({ create: { width: 400, height: 300, channels: 3, background: '#808080' } })
      .composite([{ input: await sharp(bar).png().toBuffer(), left: 50, top: 140 }])
      .png()
      .toBuffer();
    const reading = await readNaively(bytes);
    expect(reading.partAt(200, 150)?.name).toBe('red');
    expect(reading.partAt(200, 50)).toBeNull();
    expect(reading.parts).toHaveLength(1);
  });
});
