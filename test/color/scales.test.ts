import { describe, expect, it } from 'vitest';
import { deltaE2000, type Lab } from '../../src/color';
import centers from '../published/insulation-centers.json';
import munsell from '../published/munsell-subset.json';
import spectra from '../published/spectra.json';

/**
 * Two traps of published color tables, each told by arithmetic of its own. Sources: ASTM D1535 (polynomial from
 * memory, agrees with 0.975 times the tabled Y of the renotation), CIE 15 for Lab, Bradford matrix from memory.
 */

/** Luminance of a Munsell value, perfect diffuser = 100. */
const luminanceOf = (v: number): number =>
  1.1914 * v - 0.22533 * v ** 2 + 0.23352 * v ** 3 - 0.020484 * v ** 4 + 0.00081939 * v ** 5;

const munsellValue = (notation: string): number =>
  Number(notation.startsWith('N') ? notation.slice(1) : notation.split(' ')[1]!.split('/')[0]);

type Xyz = readonly [number, number, number];
const whiteOf = ([x, y]: readonly number[]): Xyz => [x! / y!, 1, (1 - x! - y!) / y!];
const D65 = whiteOf(spectra.illuminants.D65.xy);
const D50 = whiteOf(spectra.illuminants.D50.xy);

const cube = (f: number): number => (f > 6 / 29 ? f ** 3 : 3 * (6 / 29) ** 2 * (f - 4 / 29));
const root = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
const xyzOf = ([l, a, b]: readonly number[], white: Xyz): Xyz => {
  const f = (l! + 16) / 116;
  return [white[0] * cube(f + a! / 500), white[1] * cube(f), white[2] * cube(f - b! / 200)];
};
const labIn = (xyz: Xyz, white: Xyz): Lab => {
  const [x, y, z] = xyz.map((v, i) => root(v / white[i]!)) as [number, number, number];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
};

const BRADFORD = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
] as const;
const cones = (xyz: Xyz): Xyz =>
  BRADFORD.map((row) => row[0] * xyz[0] + row[1] * xyz[1] + row[2] * xyz[2]) as unknown as Xyz;
/** Solves the three equations by Cramer's rule. */
const fromCones = (c: Xyz): Xyz => {
  const det = (m: readonly (readonly number[])[]): number =>
    m[0]![0]! * (m[1]![1]! * m[2]![2]! - m[1]![2]! * m[2]![1]!) -
    m[0]![1]! * (m[1]![0]! * m[2]![2]! - m[1]![2]! * m[2]![0]!) +
    m[0]![2]! * (m[1]![0]! * m[2]![1]! - m[1]![1]! * m[2]![0]!);
  return [0, 1, 2].map((k) => {
    const m = BRADFORD.map((row, i) => row.map((x, j) => (j === k ? c[i]! : x)));
    return det(m) / det(BRADFORD);
  }) as unknown as Xyz;
};
const adapt = (xyz: Xyz, from: Xyz, to: Xyz): Xyz => {
  const [c, f, t] = [cones(xyz), cones(from), cones(to)];
  return fromCones([(c[0] * t[0]) / f[0], (c[1] * t[1]) / f[1], (c[2] * t[2]) / f[2]]);
};

describe('the luminance of a Munsell value', () => {
  const off = (scale: number): string[] =>
    munsell.entries
      .filter((e) => Math.abs((e.Y * scale) / luminanceOf(munsellValue(e.notation)) - 1) > 0.004)
      .map((e) => e.notation);

  it('is on the scale of the perfect diffuser in every row', () => {
    expect(munsell.entries.length).toBeGreaterThan(20);
    expect(off(1)).toEqual([]);
  });
  it('twin: on the magnesium oxide scale of the old tables every row is off', () => {
    expect(off(1 / 0.975)).toHaveLength(munsell.entries.length);
  });
});

describe('the white that a Lab is told under', () => {
  const apart = (e: (typeof munsell.entries)[number], from: Xyz): number =>
    deltaE2000(labIn(adapt(xyzOf(e.lab_D50, from), from, D65), D65), e.lab_D65 as unknown as Lab);

  it('D50 rows become the D65 rows by adaptation', () => {
    for (const e of munsell.entries) expect(apart(e, D50), e.notation).toBeLessThan(0.3);
  });
  it('twin: taken for D65 as they stand, the strong colors are off', () => {
    const blue = munsell.entries.find((e) => e.notation === '2.5PB 4/10')!;
    expect(apart(blue, D65)).toBeGreaterThan(2);
  });
  it('RAL values say D50', () => {
    expect(centers.ral.rows.length).toBeGreaterThan(8);
    for (const row of centers.ral.rows) expect(Object.keys(row)).toContain('lab_D50');
  });
});
