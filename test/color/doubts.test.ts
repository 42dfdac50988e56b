import { describe, expect, it } from 'vitest';
import type { LightPosterior } from '../../src/color';
import { posteriorOf } from '../../src/color/light/posterior';
import { doubtsOf } from '../../src/color/naming/doubts';
import { type Body, ribbonBody } from '../../src/color/ribbon/body';
import { makeRibbon } from './make-ribbon';

const LIGHT: LightPosterior = {
  ...posteriorOf({ mean: [1, 1, 1], xy: [0.3127, 0.329], errorDeg: 1, basis: 'scene statistics' }, 0.9),
  errorDeg: 1,
  mixedLightDeg: 1,
};
const CLEAN: Body = {
  ...ribbonBody(makeRibbon({ body: [0.42, 0.02, 0.02] }))!,
  usable: 1,
  widthPx: 20,
  blurPx: 1,
  scatter: [1e-4, 0, 1e-4],
  gloss: 1,
};
const TWO = [
  { name: 'red', probability: 0.6 },
  { name: 'brown', probability: 0.3 },
] as const;
const told = (body: Partial<Body>, light: Partial<typeof LIGHT> = {}, setSize = 2): string[] =>
  doubtsOf({ ...CLEAN, ...body }, { ...LIGHT, ...light }, TWO, setSize).map((d) => d.code.replace('color.doubt.', ''));

/** The conductors were asked, and told. */
const ASKED = { toldByConductors: true };
/** Each circumstance with the doubt it must raise, and the same a little short of it, which must raise none. */
const CASES: readonly (readonly [
  string,
  Partial<Body>,
  Partial<typeof LIGHT>,
  Partial<Body>,
  Partial<typeof LIGHT>,
])[] = [
  ['clipped', { usable: 0.4 }, {}, { usable: 0.6 }, {}],
  ['dark', { rgb: [0.005, 0.002, 0.001] }, {}, { rgb: [0.007, 0.002, 0.001] }, {}],
  ['thin', { widthPx: 4.9 }, {}, { widthPx: 5.1 }, {}],
  ['blur', { widthPx: 20, blurPx: 7 }, {}, { widthPx: 20, blurPx: 6.5 }, {}],
  ['light', {}, { errorDeg: 3.1 }, {}, { errorDeg: 2.9 }],
  ['mixed-light', {}, { mixedLightDeg: 16.1 }, {}, { mixedLightDeg: 15.9 }],
  ['mixed-light', {}, { ...ASKED, mixedLightDeg: 9.1 }, {}, { ...ASKED, mixedLightDeg: 8.9 }],
  ['mixed-light-flash', {}, { mixedLightDeg: 16.1, flash: true }, {}, { mixedLightDeg: 16.1 }],
  ['uneven', { scatter: [0.002, 0, 0.002] }, {}, { scatter: [0.001, 0, 0.001] }, {}],
  ['gloss', { gloss: 2.7 }, {}, { gloss: 2.5 }, {}],
];

describe('why a color is unsure', () => {
  it.each(CASES)('%s, and not a little short of it', (code, body, light, lessBody, lessLight) => {
    expect(told(body, light)).toContain(code);
    expect(told(lessBody, lessLight)).not.toContain(code);
  });

  it('names the two that are close, and nothing of them where one name is left', () => {
    const close = doubtsOf(CLEAN, LIGHT, TWO, 2).find((d) => d.code === 'color.doubt.close');
    expect(close?.values).toEqual({ first: 'color.name.red', second: 'color.name.brown' });
    expect(told({}, { errorDeg: 9, mixedLightDeg: 20 }, 1)).toEqual([]);
    expect(doubtsOf(CLEAN, LIGHT, TWO.slice(0, 1), 2)).toEqual([]);
  });

  it('tells the worst first: nothing to read before a thin one, that before a name that is close', () => {
    const all = told(
      { usable: 0.2, rgb: [0.001, 0.001, 0.001], widthPx: 3, gloss: 4 },
      { errorDeg: 5, mixedLightDeg: 20 },
    );
    expect(all).toEqual(['clipped', 'dark', 'thin', 'close', 'light', 'mixed-light', 'gloss']);
  });

  it('says how wide, and how far off the light may be, in whole numbers', () => {
    const thin = doubtsOf({ ...CLEAN, widthPx: 3.4 }, { ...LIGHT, errorDeg: 4.6 }, TWO, 2);
    expect(thin.find((d) => d.code === 'color.doubt.thin')?.values).toEqual({ width: 3 });
    expect(thin.find((d) => d.code === 'color.doubt.light')?.values).toEqual({ degrees: 5 });
  });
});
