import { describe, expect, it } from 'vitest';
import { blurPalette, likelihoods, SURFACES } from '../../src/color/palette/likelihood';
import { PALETTE_DATA } from '../../src/color/palette/palette-data';
import { seeded } from './make-ribbon';

type Vector = readonly [number, number, number];
type Matrix = readonly [Vector, Vector, Vector];

/** Density of a trivariate normal by solving with Cramer's rule (the textbook formula, written out anew). */
function density(x: Vector, mean: Vector, cov: Matrix): number {
  const det3 = (m: Matrix): number =>
    m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
    m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
    m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  const d = x.map((v, k) => v - mean[k]!) as unknown as Vector;
  const det = det3(cov);
  let q = 0;
  for (let k = 0; k < 3; k++) {
    const column = cov.map((row, i) => row.map((v, j) => (j === k ? d[i]! : v))) as unknown as Matrix;
    q += d[k]! * (det3(column) / det);
  }
  return Math.exp(-0.5 * q) / Math.sqrt((2 * Math.PI) ** 3 * det);
}

/** The mixture of a surface with an error added, as `palette.json` means it; 2 % stray. */
function mixture(surface: (typeof SURFACES)[number], x: Vector, error: readonly number[]): number {
  const parts = [
    ...PALETTE_DATA[surface].parts.map((p) => [p[0]! * 0.98, ...p.slice(1)] as number[]),
    [0.02, 0, 0, -3, 0.03, 0, 0, 0.03, 0, 4],
  ];
  return parts.reduce((sum, p) => {
    const v = (k: number): number => p[4 + k]! + error[k]!;
    const cov: Matrix = [
      [v(0), v(1), v(2)],
      [v(1), v(3), v(4)],
      [v(2), v(4), v(5)],
    ];
    return sum + p[0]! * density(x, [p[1]!, p[2]!, p[3]!], cov);
  }, 0);
}

const ERROR = [0.0016, 0.0003, 0.002, 0.0011, -0.001, 0.09] as const;
const EXPOSURES = [-1, 0, 0.7];
const random = seeded(9);
const PLACES = Array.from(
  { length: 40 },
  (): Vector => [0.7 * (random() - 0.5), 0.7 * (random() - 0.5), -6 * random()],
);

describe('likelihood of a reading', () => {
  const at = (x: Vector): Float64Array => {
    const out = new Float64Array(EXPOSURES.length * SURFACES.length);
    likelihoods(blurPalette(ERROR), ...x, EXPOSURES, out);
    return out;
  };

  it('is the mixture of normals of the palette with the error added, at every exposure', () => {
    for (const x of PLACES) {
      const out = at(x);
      EXPOSURES.forEach((e, row) => {
        SURFACES.forEach((surface, k) => {
          const expected = mixture(surface, [x[0], x[1], x[2] - e], ERROR);
          const got = out[row * SURFACES.length + k]!;
          expect(Math.abs(got - expected)).toBeLessThan(1e-9 + 1e-6 * expected);
        });
      });
    }
  });

  it('forgets what was in the array before', () => {
    const out = new Float64Array(EXPOSURES.length * SURFACES.length).fill(7);
    likelihoods(blurPalette(ERROR), ...PLACES[0]!, EXPOSURES, out);
    expect([...out]).toEqual([...at(PLACES[0]!)]);
  });

  it('twin: without the error, or at another exposure, it is another', () => {
    const sharp = blurPalette([0, 0, 0, 0, 0, 0]);
    const out = new Float64Array(SURFACES.length);
    likelihoods(sharp, ...PLACES[0]!, [0], out);
    expect(Math.abs(Math.log(out[0]! / mixture(SURFACES[0]!, PLACES[0]!, ERROR)))).toBeGreaterThan(1e-3);
    expect(at([0, 0, -2])[0]).not.toBeCloseTo(at([0, 0, -2])[SURFACES.length]!, 6);
  });
});
