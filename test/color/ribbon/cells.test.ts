import { convertLrgbToOklab } from 'culori/fn';
import { describe, expect, it } from 'vitest';
import { cellsOf } from '../../../src/color/ribbon/cells';
import { makeFine } from './make-fine';

const softened = ([r, g, b]: readonly number[]) => {
  const lab = convertLrgbToOklab({ r: r!, g: g!, b: b! });
  return [lab.a / (lab.l + 0.12), lab.b / (lab.l + 0.12)] as const;
};

describe('features of cells', () => {
  it('are OKLab as culori computes it, softened in the dark', () => {
    const fine = makeFine({ body: [0.4, 0.1, 0.05] });
    const cells = cellsOf(fine);
    for (const k of [0, 37, 200]) {
      const [s, t] = softened([...fine.rgb.slice(3 * k, 3 * k + 3)]);
      expect(cells.s[k]).toBeCloseTo(s, 3);
      expect(cells.t[k]).toBeCloseTo(t, 3);
    }
  });
  it('twin: with red and blue exchanged they are others', () => {
    const fine = makeFine({ body: [0.4, 0.1, 0.05] });
    const [s] = softened([fine.rgb[113]!, fine.rgb[112]!, fine.rgb[111]!]);
    expect(Math.abs(cellsOf(fine).s[37]! - s)).toBeGreaterThan(0.02);
  });
  it('hardly change with light, but in deep shade', () => {
    const bright = cellsOf(makeFine({ body: [0.4, 0.1, 0.05], noise: 0 }));
    const dim = cellsOf(makeFine({ body: [0.2, 0.05, 0.025], noise: 0 }));
    expect(Math.abs(bright.s[100]! - dim.s[100]!)).toBeLessThan(0.03);
    expect(bright.z[100]! - dim.z[100]!).toBeCloseTo(1, 1);
  });
});
