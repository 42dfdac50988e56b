import { describe, expect, it } from 'vitest';
import { alikeToTouch, doubtBorder, doubtStrays, nameInsulations } from '../../src/color';
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

  it('that runs along the border of two is neither for certain', () => {
    const { doubted } = read({ body: RED, widthPx: 20, second: { rgb: BLUE, where: (_, t) => t > 0.05 } });
    expect(doubted.confidence).toBeLessThan(0.7);
    expect(doubted.set).toEqual(expect.arrayContaining(['red', 'blue']));
  });

  it('twin: light from one side is shading, not a border', () => {
    const { plain, doubted } = read({ body: BLUE, widthPx: 20, highlight: 0.4 });
    expect(doubted).toEqual(plain);
  });

  it('never makes a name surer', () => {
    for (let k = 2; k < 28; k += 3) {
      const { plain, doubted } = read({ body: RED, second: { rgb: BLUE, where: (i) => i >= k } });
      expect(doubted.confidence).toBeLessThanOrEqual(plain.confidence);
    }
  });
});

describe('a finger on the border of two conductors', () => {
  const of = (body: RibbonRecipe['body']) => nameInsulations([makeRibbon({ body })], LIGHT).readings[0]!;
  const [red, blue] = [of(RED), of(BLUE)];

  it('leaves open which one is meant, and says so', () => {
    const { insulation } = doubtBorder(red, [red, red, red, blue]);
    expect(red.insulation.confidence).toBeGreaterThan(0.95);
    expect(insulation.best).toBe('red');
    expect(insulation.confidence).toBeLessThan(0.9);
    expect(insulation.set).toContain('blue');
    expect(insulation.doubts[0]?.code).toBe('color.doubt.border');
  });

  it('never turns the name into its neighbor, whatever lies around', () => {
    const { insulation } = doubtBorder(red, [blue, blue, blue, blue]);
    expect(insulation.candidates.find((c) => c.name === 'red')!.probability).toBeGreaterThan(0.49);
  });

  it('twin: with one color all around nothing changes', () => {
    expect(doubtBorder(red, [red, of([0.4, 0.025, 0.02]), red, red])).toEqual(red);
  });

  it('is looked at only where the pixels beside it differ', () => {
    const patch = (rgb: readonly number[]) => Float32Array.from({ length: 27 }, (_, k) => rgb[k % 3]!);
    expect(alikeToTouch(patch(RED), patch(RED.map((v) => 0.6 * v)))).toBe(true);
    expect(alikeToTouch(patch(RED), patch(BLUE))).toBe(false);
    expect(alikeToTouch(patch([0.9, 0.9, 0.9]), patch([0.02, 0.02, 0.02]))).toBe(false);
  });
});
