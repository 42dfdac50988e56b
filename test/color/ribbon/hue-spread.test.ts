import { convertLab65ToRgb, convertRgbToLrgb } from 'culori/fn';
import { describe, expect, it } from 'vitest';
import { ribbonBody } from '../../../src/color/ribbon/body';
import { hueSpreadEvidence } from '../../../src/color/ribbon/green-yellow';
import { hueSpreadOf } from '../../../src/color/ribbon/hue-spread';
import centers from '../../published/insulation-centers.json';
import munsell from '../../published/munsell-subset.json';
import { makeRibbon, type RibbonRecipe } from '../make-ribbon';

/** Linear sRGB of a published center of insulation colors (EIA-359-A), four fifths of it. */
const center = (code: string): [number, number, number] => {
  const { munsell: notation } = centers.telephone.rows.find((row) => row.code === code)!;
  const [l, a, b] = munsell.entries.find((e) => e.notation === notation)!.lab_D65;
  const { r, g, b: blue } = convertRgbToLrgb(convertLab65ToRgb({ l: l!, a: a!, b: b! }));
  const part = (v: number): number => 0.8 * Math.max(0, v);
  return [part(r), part(g), part(blue)];
};
const [GREEN, YELLOW, BLUE] = [center('GN'), center('YE'), center('BU')];

const spread = (recipe: Partial<RibbonRecipe>) => hueSpreadOf(makeRibbon({ body: GREEN, ...recipe }));
const evidence = (recipe: Partial<RibbonRecipe>): number => {
  const body = ribbonBody(makeRibbon({ body: GREEN, widthPx: 8, blurPx: 1.5, ...recipe }));
  return body ? hueSpreadEvidence('green-yellow', body) : Number.NaN;
};

describe('hues that take turns', () => {
  // IEC 60445 7.3.2: on any 15 mm one of the two colors covers 30 to 70 % of the surface (from memory).
  const stripes = {
    spiral: (i: number, t: number) => (i + 8 * t + 100) % 10 < 4,
    rings: (i: number) => i % 10 < 4,
    along: (_: number, t: number) => Math.abs(t) < 0.35,
  };
  for (const [layout, where] of Object.entries(stripes))
    it(`on a stripe: ${layout}`, () => {
      expect(spread({ second: { rgb: YELLOW, where } })!.turns).toBeGreaterThan(0.6);
      expect(evidence({ second: { rgb: YELLOW, where } })).toBeGreaterThan(1);
    });

  const others: Readonly<Record<string, Partial<RibbonRecipe>>> = {
    'one color': {},
    'one color in much noise': { noise: 0.12 },
    'a yellow neighbor at the rim': { second: { rgb: YELLOW, where: (_, t) => t > 0.4 } },
    'yellow on one half of the length': { second: { rgb: YELLOW, where: (i) => i > 16 } },
    'a highlight of a warm lamp': { light: [1, 0.8, 0.5], highlight: 0.6 },
  };
  for (const [what, recipe] of Object.entries(others))
    it(`twin: not on ${what}`, () => {
      expect(spread(recipe)!.turns).toBeLessThan(0.1);
      expect(evidence(recipe)).toBeLessThanOrEqual(0);
    });

  it('twin: blue and yellow take turns, and are no green-yellow', () => {
    const recipe = { body: BLUE, second: { rgb: YELLOW, where: stripes.rings } };
    expect(spread(recipe)!.turns).toBeGreaterThan(0.6);
    expect(evidence(recipe)).toBeLessThan(0);
  });

  it('nothing is said where nothing has a color, or next to nothing was seen', () => {
    expect(spread({ body: [0.3, 0.3, 0.3], noise: 0 })).toBeNull();
    const ribbon = makeRibbon({ body: GREEN });
    expect(hueSpreadOf({ ...ribbon, usable: new Uint8Array(ribbon.usable.length) })).toBeNull();
  });
});
