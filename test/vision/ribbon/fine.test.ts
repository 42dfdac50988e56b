import { describe, expect, it } from 'vitest';
import { BESIDE, type Point, type Raster } from '../../../src/flow';
import { createClassicalSegmenter, fineRibbonOf, makeTraceable, retrace } from '../../../src/vision';
import { sampleFine } from '../../../src/vision/ribbon/fine';
import { type Field, makeField } from '../../../src/vision/trace/field';
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
      const { length, closer } = await ribbon(
        [
          [40, 120],
          [280, 120],
        ],
        18,
        y,
      );
      if (!closer) throw new Error('a traced conductor can be looked at closer');
      const { beside } = closer();
      expect(closer().beside).toBe(beside);
      expect(beside.rgb).toHaveLength(length * 2 * BESIDE * 3);
      expect(beside.said).toBeNull();
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

describe('a fine ribbon of a trace as tracing leaves it', () => {
  const jittered = (amplitude: number) =>
    Array.from({ length: 81 }, (_, k) => ({
      at: [40 + 3 * k, 120 + amplitude * (k % 2 ? 1 : -1)] as const,
      halfWidth: 10,
      seen: true,
      wire: 1,
    }));
  const noisy = (): Raster => {
    const raster = blank(320, 240, GRAY);
    for (let k = 0; k < raster.data.length; k++) if (k % 4 < 3) raster.data[k]! += (k * 7919) % 41 < 20 ? 12 : -12;
    return raster;
  };
  const noisyField = async (): Promise<Field> => {
    const raster = noisy();
    return makeField(await createClassicalSegmenter().segment(raster), raster);
  };
  const spread = (values: readonly number[]): number => {
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    return Math.sqrt(values.reduce((a, v) => a + (v - mean) ** 2, 0) / values.length);
  };

  it('runs straight where the steps jitter, less than a tenth as much', async () => {
    const fine = sampleFine(await noisyField(), jittered(1.5), QUALITY);
    const off = fine.centers.slice(20, -20).map(([, y]) => Math.abs(y - 120));
    expect(Math.max(...off)).toBeLessThan(0.15);
    expect(fine.widths[fine.length >> 1]).toBeCloseTo(20, 4);
  });
  it('twin: a bend of the same size that is the conductor’s own stays', async () => {
    const bent = jittered(0).map((p, k) => ({ ...p, at: [p.at[0], 120 + 1.5 * Math.sin(k / 6)] as const }));
    const fine = sampleFine(await noisyField(), bent, QUALITY);
    const off = fine.centers.slice(20, -20).map(([, y]) => Math.abs(y - 120));
    expect(Math.max(...off)).toBeGreaterThan(1.2);
  });
  it('takes the mean of several samples where a cell is several pixels large, so that noise is less', async () => {
    const field = await noisyField();
    const noiseOf = (halfWidth: number): number => {
      const trace = jittered(0).map((p) => ({ ...p, halfWidth }));
      const { rgb } = sampleFine(field, trace, QUALITY);
      return spread(Array.from(rgb).filter((_, k) => k % 3 === 1));
    };
    expect(noiseOf(15)).toBeLessThan(0.75 * noiseOf(7));
  });
});
