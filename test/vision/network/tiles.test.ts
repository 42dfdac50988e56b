import { describe, expect, it } from 'vitest';
import { emptyWhole, mergeScores } from '../../../src/vision/network/merge';
import { COLOR_COUNT, SCORE_COUNT, type Scores } from '../../../src/vision/network/planes';
import { planTiles } from '../../../src/vision/network/tiles';

/** Scores of one wire-like column of pixels per listed x, elsewhere sure background. */
function scores(width: number, height: number, columns: readonly number[], halfWidth: number): Scores {
  const full = new Float32Array(width * height * SCORE_COUNT);
  for (let i = 0; i < width * height; i++) {
    full[i * SCORE_COUNT] = columns.includes(i % width) ? 2 : -8;
    full[i * SCORE_COUNT + 4] = Math.log(halfWidth);
  }
  return { width, height, full, color: new Float32Array((width * height * COLOR_COUNT) / 4) };
}

describe('planTiles', () => {
  const budget = 2.4 * 512 * 512;

  it('looks at a small photo whole', () => {
    const tiles = planTiles(scores(256, 192, [], 3), 512, 384, budget, 32);
    expect(tiles).toHaveLength(1);
    expect(tiles[0]!.keep).toEqual({ x: 0, y: 0, width: 512, height: 384 });
  });

  it('does not look closer where nothing is', () => {
    expect(planTiles(scores(608, 448, [], 3), 1200, 900, budget, 32)).toEqual([]);
  });

  it('looks where the thin conductor is, and stays within its budget', () => {
    const tiles = planTiles(scores(608, 448, [50, 51], 1.5), 1200, 900, budget, 32);
    expect(tiles.length).toBeGreaterThan(2);
    for (const { keep, look } of tiles) {
      expect(keep.x).toBe(0);
      expect(look.x).toBeGreaterThanOrEqual(0);
      expect(look.y + look.height).toBeLessThanOrEqual(900);
    }
    expect(tiles.reduce((sum, { look }) => sum + look.width * look.height, 0)).toBeLessThanOrEqual(budget);
    const everywhere = Array.from({ length: 608 }, (_, x) => x);
    const crowded = planTiles(scores(608, 448, everywhere, 1.5), 1200, 900, budget, 32);
    expect(crowded.reduce((sum, { look }) => sum + look.width * look.height, 0)).toBeLessThanOrEqual(budget);
  });

  it('twin that must fail: with the conductor elsewhere the tiles are elsewhere', () => {
    const tiles = planTiles(scores(608, 448, [600, 601], 1.5), 1200, 900, budget, 32);
    expect(tiles.every(({ keep }) => keep.x === 0)).toBe(false);
  });
});

describe('mergeScores', () => {
  it('gives half widths in pixels of the working image', () => {
    const whole = emptyWhole(64, 64);
    const all = { x: 0, y: 0, width: 64, height: 64 };
    mergeScores(whole, scores(32, 32, [4], 3), all, all, 1);
    expect(Math.exp(whole.full[4]!)).toBeCloseTo(6, 3);
  });

  it('counts a closer look by its share, inside what it is trusted for only', () => {
    const whole = emptyWhole(64, 64);
    const all = { x: 0, y: 0, width: 64, height: 64 };
    mergeScores(whole, scores(32, 32, [], 3), all, all, 1);
    const everywhere = Array.from({ length: 64 }, (_, x) => x);
    mergeScores(whole, scores(64, 64, everywhere, 3), all, { x: 0, y: 0, width: 32, height: 64 }, 0.5);
    expect(whole.full[(10 * 64 + 10) * SCORE_COUNT]).toBeCloseTo(-3, 4);
    expect(whole.full[(10 * 64 + 40) * SCORE_COUNT]).toBeCloseTo(-8, 4);
  });
});
