import { describe, expect, it } from 'vitest';
import { BESIDE, type Point } from '../../../src/flow';
import { createClassicalSegmenter, fineRibbonOf, makeTraceable, retrace } from '../../../src/vision';
import { blank, lay } from '../draw';

const QUALITY = { noiseLevel: 2, blurPx: 0.7 };
const GRAY = [150, 150, 148] as const;

async function ribbon(line: readonly Point[], widthPx: number, neighborY?: number) {
  const raster = blank(320, 240, GRAY);
  if (neighborY !== undefined)
    lay(
      raster,
      [
        [0, neighborY],
        [320, neighborY],
      ],
      widthPx / 2,
      [20, 140, 40],
    );
  lay(raster, [line[0]!, [160, 120]], widthPx / 2, [30, 60, 160]);
  lay(raster, [[160, 120], line[1]!], widthPx / 2, [190, 30, 35]);
  const traceable = makeTraceable(raster, await createClassicalSegmenter().segment(raster));
  const centerline = Array.from({ length: 41 }, (_, k): Point => {
    const t = k / 40;
    return [line[0]![0] + t * (line[1]![0] - line[0]![0]), line[0]![1] + t * (line[1]![1] - line[0]![1])];
  });
  const conductor = {
    id: 'c',
    origin: 'drawn',
    covering: 'insulated',
    coveringConfidence: 0.5,
    presence: 1,
    outlines: [],
    centerline,
    widthPx,
    ends: ['unknown', 'unknown'],
    crossings: [],
  } as const;
  return fineRibbonOf(traceable, retrace(traceable, conductor), QUALITY);
}

describe('a fine ribbon', () => {
  it('has cells as long as they are wide, from one end to the other', async () => {
    const fine = await ribbon(
      [
        [40, 120],
        [280, 120],
      ],
      18,
    );
    expect(fine.across).toBe(12);
    expect(fine.stepPx).toBeCloseTo(18 / 12, 6);
    expect(fine.length * fine.stepPx).toBeGreaterThan(240 - fine.stepPx);
    expect(fine.centers[0]![0]).toBeCloseTo(40.75, 1);
    expect(fine.wire).toBeNull();
  });
  it.each([
    ['right', 139, 1],
    ['left', 101, 0],
  ] as const)(
    'knows what lies beside, here a green neighbor on its %s and a gray wall on the other side',
    async (_, y, side) => {
      const { length, beside } = await ribbon(
        [
          [40, 120],
          [280, 120],
        ],
        18,
        y,
      );
      if (!beside) throw new Error('a traced conductor is sampled beside its rims too');
      expect(beside.rgb).toHaveLength(length * 2 * BESIDE * 3);
      expect(beside.wire).toBeNull();
      // The outermost column of each side, an eighth of the conductor's width from its rim.
      const greenAt = (column: number): number => {
        const k = ((length >> 2) * 2 * BESIDE + column) * 3;
        return beside.rgb[k + 1]! / (beside.rgb[k]! + beside.rgb[k + 2]!);
      };
      const [left, right] = [greenAt(0), greenAt(2 * BESIDE - 1)];
      expect(side === 1 ? right : left).toBeGreaterThan(2);
      expect(side === 1 ? left : right).toBeCloseTo(0.5, 1);
    },
  );
  it('shows where the color changes, to a row, on a slanted line too', async () => {
    const fine = await ribbon(
      [
        [60, 60],
        [260, 180],
      ],
      16,
    );
    const red = Array.from({ length: fine.length }, (_, i) => {
      const k = (i * 12 + 6) * 3;
      return fine.rgb[k]! > fine.rgb[k + 2]!;
    });
    const change = red.indexOf(true);
    const [x, y] = fine.centers[change]!;
    expect(Math.hypot(x - 160, y - 120)).toBeLessThan(10);
    expect(red.slice(change + 8).every(Boolean)).toBe(true);
  });
  it('never has more rows than its limit: a long thin one gets longer rows', async () => {
    const fine = await ribbon(
      [
        [10, 10],
        [310, 230],
      ],
      3,
    );
    expect(fine.length).toBeLessThanOrEqual(480);
    expect(fine.length * fine.stepPx).toBeLessThanOrEqual(Math.hypot(300, 220) + 1);
  });
});
