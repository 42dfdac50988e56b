import { describe, expect, it } from 'vitest';
import { claimedRows, nameInsulations } from '../../src/color';
import { posteriorOf } from '../../src/color/light/posterior';
import type { Ribbon } from '../../src/flow';
import { makeRibbon, type RibbonRecipe } from './make-ribbon';

const LIGHT = posteriorOf({ mean: [1, 1, 1], xy: [0.3127, 0.329], errorDeg: 2, basis: 'scene statistics' }, 0.9);
// Linear sRGB of plain plastics, invented.
const RED = [0.42, 0.02, 0.02] as const;
const BLUE = [0.02, 0.08, 0.4] as const;
const WHITE = [0.8, 0.79, 0.76] as const;
const BLACK = [0.012, 0.012, 0.013] as const;

/** Rows of `makeRibbon`: 30, a pixel each. */
const ROWS = 30;

function claimed(...ribbons: readonly Ribbon[]) {
  const { readings, light } = nameInsulations(ribbons, LIGHT);
  return { readings, rows: claimedRows(ribbons, readings, light) };
}
const of = (recipe: RibbonRecipe) => claimed(makeRibbon(recipe)).rows[0];
/** Another color from row to row. */
const between = (from: number, to: number, rgb: readonly [number, number, number] = BLUE) => ({
  second: { rgb, where: (i: number) => i >= from && i < to },
});
const mask = (from: number, to: number): number[] =>
  Array.from({ length: ROWS }, (_, i) => Number(i < from || i >= to));

describe('rows that a conductor may claim under its name', () => {
  it('end where its color ends, at either end', () => {
    expect([...of({ body: RED, ...between(22, ROWS) })!]).toEqual(mask(22, ROWS));
    expect([...of({ body: RED, ...between(0, 5) })!]).toEqual(mask(0, 5));
    expect([...of({ body: WHITE, ...between(24, ROWS, BLACK) })!]).toEqual(mask(24, ROWS));
  });

  it('twin: are all of them on a plain one, shaded, shining or with a stripe along', () => {
    const along = { rgb: BLUE, where: (_: number, t: number) => Math.abs(t) < 0.2 };
    for (const recipe of [
      { body: RED },
      { body: BLUE, highlight: 0.4 },
      { body: WHITE },
      { body: RED, second: along },
      { body: RED, ...between(22, ROWS, [0.21, 0.01, 0.01]) },
    ])
      expect(of(recipe)).toBeNull();
  });

  it('go on under a band on it, and not over what is too long for one', () => {
    // Four widths of 4 pixels are 16 rows.
    expect(of({ body: RED, widthPx: 4, blurPx: 0, ...between(8, 16) })).toBeNull();
    expect([...of({ body: RED, widthPx: 1.5, blurPx: 0, ...between(8, 16) })!]).toEqual(mask(8, 16));
  });

  it('go on into shade in which the color can still be told', () => {
    const deep = (factor: number) => between(24, ROWS, [RED[0] * factor, RED[1] * factor, RED[2] * factor]);
    expect(of({ body: RED, noise: 0.0005, ...deep(0.2) })).toBeNull();
    // Twin: where nothing can be told, nothing is claimed.
    expect([...of({ body: RED, noise: 0.0005, ...deep(0.01) })!]).toEqual(mask(24, ROWS));
  });

  it('are counted for each ribbon by itself; one that cannot be read keeps what it has', () => {
    const empty: Ribbon = {
      ...makeRibbon({ body: RED }),
      length: 0,
      rgb: new Float32Array(),
      usable: new Uint8Array(),
    };
    const onto = makeRibbon({ body: RED, ...between(22, ROWS) });
    const { rows } = claimed(makeRibbon({ body: BLUE }), empty, onto);
    expect(rows[0]).toBeNull();
    expect(rows[1]).toBeNull();
    expect([...rows[2]!]).toEqual(mask(22, ROWS));
  });

  it('that are clipped are not taken away: what they show is not known', () => {
    const onto = makeRibbon({ body: RED, ...between(22, ROWS) });
    const { readings, light } = nameInsulations([onto], LIGHT);
    const clipped = { ...onto, usable: onto.usable.map((v, k) => (k >= 22 * onto.across ? 0 : v)) };
    expect(claimedRows([clipped], readings, light)[0]).toBeNull();
  });
});
