import { describe, expect, it } from 'vitest';
import { doubtStrays, nameInsulations } from '../../src/color';
import { posteriorOf } from '../../src/color/light/posterior';
import { makeRibbon, type RibbonRecipe } from './make-ribbon';

const LIGHT = posteriorOf({ mean: [1, 1, 1], xy: [0.3127, 0.329], errorDeg: 2, basis: 'scene statistics' }, 0.9);
// Linear sRGB of plain red and blue plastics, invented.
const RED = [0.42, 0.02, 0.02] as const;
const BLUE = [0.02, 0.08, 0.4] as const;

function read(recipe: RibbonRecipe) {
  const ribbons = [makeRibbon(recipe)];
  const { readings, light } = nameInsulations(ribbons, LIGHT);
  return { plain: readings[0]!.insulation, doubted: doubtStrays(ribbons, readings, light)[0]!.insulation };
}

describe('a trace that runs from one conductor onto another', () => {
  const stray = read({ body: RED, second: { rgb: BLUE, where: (i) => i >= 18 } });

  it('was surely one of them, and is now neither for certain', () => {
    expect(stray.plain.best).toBe('red');
    expect(stray.doubted.confidence).toBeLessThan(0.7);
    expect(stray.doubted.set).toEqual(expect.arrayContaining(['red', 'blue']));
    expect(stray.doubted.doubts[0]?.code).toBe('color.doubt.strays');
  });

  it('leaves a plain conductor as it is, shaded or striped', () => {
    for (const recipe of [
      { body: RED },
      { body: BLUE, highlight: 0.4 },
      { body: RED, second: { rgb: BLUE, where: (_: number, t: number) => Math.abs(t) < 0.2 } },
    ]) {
      const { plain, doubted } = read(recipe);
      expect(doubted).toEqual(plain);
      expect(plain.confidence).toBeGreaterThan(0.8);
    }
  });

  it('never makes a name surer', () => {
    for (let k = 2; k < 28; k += 3) {
      const { plain, doubted } = read({ body: RED, second: { rgb: BLUE, where: (i) => i >= k } });
      expect(doubted.confidence).toBeLessThanOrEqual(plain.confidence);
    }
  });
});
