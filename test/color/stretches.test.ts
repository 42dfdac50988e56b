import { describe, expect, it } from 'vitest';
import { alikeToTouch, doubtBorder, doubtElsewhere, doubtStrays, nameInsulations } from '../../src/color';
import { posteriorOf } from '../../src/color/light/posterior';
import type { ColorName, InsulationColor, Ribbon } from '../../src/flow';
import { makeRibbon, normal, type RibbonRecipe, seeded } from './make-ribbon';

const LIGHT = posteriorOf({ mean: [1, 1, 1], xy: [0.3127, 0.329], errorDeg: 2, basis: 'scene statistics' }, 0.9);
// Linear sRGB of plain plastics, invented.
const RED = [0.42, 0.02, 0.02] as const;
const BLUE = [0.02, 0.08, 0.4] as const;
// Beside a color it is taken for a highlight or a shadow, not for a second color.
const GRAY = [0.2, 0.2, 0.2] as const;
const GREEN = [0.03, 0.22, 0.05] as const;
const ORANGE = [0.6, 0.15, 0.01] as const;
const YELLOW = [0.6, 0.45, 0.02] as const;

const dimmed = (rgb: readonly number[], factor: number) => rgb.map((v) => v * factor) as [number, number, number];

function readRibbon(ribbon: Ribbon) {
  const { readings, light } = nameInsulations([ribbon], LIGHT);
  return { plain: readings[0]!.insulation, doubted: doubtStrays([ribbon], readings, light)[0]!.insulation };
}
const read = (recipe: RibbonRecipe) => readRibbon(makeRibbon(recipe));

/** The first rows of a ribbon. */
const short = ({ rgb, usable, ...ribbon }: Ribbon, length: number): Ribbon => ({
  ...ribbon,
  length,
  rgb: rgb.subarray(0, length * ribbon.across * 3),
  usable: usable.subarray(0, length * ribbon.across),
});

const of = (color: InsulationColor, name: ColorName): number =>
  color.candidates.find((c) => c.name === name)?.probability ?? 0;

/** A list of names falls, leaves out what is next to nothing, and says no more than there is to say. */
function isList({ candidates, best, confidence }: InsulationColor): void {
  candidates.forEach((c, k) => {
    expect(c.probability).toBeLessThanOrEqual(candidates[k - 1]?.probability ?? 1);
    expect(c.probability).toBeGreaterThanOrEqual(0.005);
  });
  expect(candidates.reduce((sum, c) => sum + c.probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
  expect(best).toBe(candidates[0]!.name);
  expect(confidence).toBeLessThanOrEqual(candidates[0]!.probability);
}

describe('a trace that runs from one conductor onto another', () => {
  const ONTO: RibbonRecipe = { body: RED, second: { rgb: BLUE, where: (i) => i >= 18 } };

  it('was surely one of them, and is now neither for certain', () => {
    const { plain, doubted } = read(ONTO);
    expect(plain.best).toBe('red');
    expect(doubted.confidence).toBeLessThan(0.7);
    expect(doubted.set).toEqual(expect.arrayContaining(['red', 'blue']));
    expect(doubted.doubts[0]?.code).toBe('color.doubt.strays');
    expect(doubted.doubts.slice(1)).toEqual(plain.doubts);
    isList(doubted);
  });

  it('gives the other color the say of its share of the stretches', () => {
    // Rows 15 to 29 of 30: two of four stretches.
    for (const [from, share] of [
      [8, 0.75],
      [15, 0.5],
      [22, 0.25],
    ] as const) {
      const { plain, doubted } = read({ body: RED, second: { rgb: BLUE, where: (i) => i >= from } });
      const kept = of(doubted, plain.best) / of(plain, plain.best);
      const own = plain.best === 'red' ? 1 - share : share;
      expect(kept, `from row ${from}`).toBeCloseTo(own, 1);
    }
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

  it('takes shade along a trace for shade up to a stop and a half, although orange in deep shade is a brown', () => {
    const shade = (factor: number) =>
      read({ body: ORANGE, second: { rgb: dimmed(ORANGE, factor), where: (i) => i > 14 } });
    const { plain, doubted } = shade(0.4);
    expect(doubted).toEqual(plain);
    // Twin: beyond that it may be another conductor.
    const deep = shade(0.03);
    expect(deep.plain.best).toBe('orange');
    expect(deep.doubted.doubts[0]?.code).toBe('color.doubt.strays');
    expect(deep.doubted.set).toContain('brown');
  });

  it('is not told of a trace too short to have stretches, and is of one twice as long', () => {
    const half = makeRibbon({ body: RED, second: { rgb: BLUE, where: (i) => i > 4 } });
    const brief = readRibbon(short(half, 9));
    expect(brief.doubted).toEqual(brief.plain);
    const longer = readRibbon(short(half, 10));
    expect(longer.doubted.doubts[0]?.code).toBe('color.doubt.strays');
  });

  it('that cannot be read keeps its reading, whatever stands beside it', () => {
    const empty: Ribbon = {
      ...makeRibbon({ body: RED }),
      length: 0,
      rgb: new Float32Array(),
      usable: new Uint8Array(),
    };
    const ribbons = [empty, makeRibbon(ONTO)];
    const { readings, light } = nameInsulations(ribbons, LIGHT);
    const [first, second] = doubtStrays(ribbons, readings, light);
    expect(first).toBe(readings[0]);
    expect(second!.insulation.doubts[0]?.code).toBe('color.doubt.strays');
  });

  it('never makes a name surer', () => {
    for (let k = 2; k < 28; k += 3) {
      const { plain, doubted } = read({ body: RED, second: { rgb: BLUE, where: (i) => i >= k } });
      expect(doubted.confidence).toBeLessThanOrEqual(plain.confidence);
      isList(doubted);
    }
  });
});

describe('a trace along the border of two', () => {
  const border = (widthPx: number, at = 0.05) =>
    read({ body: RED, widthPx, second: { rgb: GRAY, where: (_, t) => t > at } });

  it('is neither for certain: each side has half the say', () => {
    const { plain, doubted } = border(20);
    expect(doubted.confidence).toBeLessThan(0.7);
    expect(doubted.set).toEqual(expect.arrayContaining(['red', 'gray']));
    expect(of(doubted, plain.best)).toBeCloseTo(of(plain, plain.best) / 2, 2);
    expect(plain.confidence).toBeGreaterThan(0.95);
    expect(doubted.doubts[0]?.code).toBe('color.doubt.strays');
  });

  it('of two strong colors is told by their split already, and stays so', () => {
    const { doubted } = read({ body: RED, widthPx: 20, second: { rgb: BLUE, where: (_, t) => t > 0.05 } });
    expect(doubted.confidence).toBeLessThan(0.7);
    expect(doubted.set).toEqual(expect.arrayContaining(['red', 'blue']));
  });

  it('says so whichever side the other lies on', () => {
    const left = read({ body: RED, widthPx: 20, second: { rgb: GRAY, where: (_, t) => t < -0.05 } });
    expect(left.doubted.confidence).toBeLessThan(0.7);
    expect(left.doubted.set).toEqual(expect.arrayContaining(['red', 'gray']));
  });

  it('is not looked for on a conductor so thin that blur mixes both sides', () => {
    const { plain, doubted } = border(7.9);
    expect(doubted).toEqual(plain);
    // Twin: on one as wide as must be, it is.
    expect(border(8).doubted.doubts[0]?.code).toBe('color.doubt.strays');
  });

  it('leaves alone what lies at the rim only, or in the middle', () => {
    for (const where of [(_: number, t: number) => Math.abs(t) > 0.85, (_: number, t: number) => Math.abs(t) < 0.14]) {
      const { plain, doubted } = read({ body: RED, widthPx: 20, second: { rgb: GRAY, where } });
      expect(doubted).toEqual(plain);
    }
  });

  it('twin: light from one side is shading, not a border, however strong', () => {
    for (const recipe of [
      { body: BLUE, widthPx: 20, highlight: 0.4 },
      {
        body: ORANGE,
        widthPx: 20,
        second: { rgb: dimmed(ORANGE, 0.03), where: (_: number, t: number) => t > 0 },
      },
    ]) {
      const { plain, doubted } = read(recipe);
      expect(doubted).toEqual(plain);
    }
  });
});

describe('a finger on the border of two conductors', () => {
  const reading = (body: RibbonRecipe['body'], second?: RibbonRecipe['second']) =>
    nameInsulations([makeRibbon(second ? { body, second } : { body })], LIGHT).readings[0]!;

  it('leaves open which one is meant, and says so', () => {
    const [red, blue] = [reading(RED), reading(BLUE)];
    const { insulation } = doubtBorder(red, [red, red, red, blue]);
    expect(red.insulation.confidence).toBeGreaterThan(0.95);
    expect(insulation.best).toBe('red');
    expect(insulation.confidence).toBeLessThan(0.9);
    expect(insulation.set).toContain('blue');
    expect(insulation.doubts[0]?.code).toBe('color.doubt.border');
    isList(insulation);
  });

  it('shares half the say among the readings beside it, each as much', () => {
    const [red, blue] = [reading(RED), reading(BLUE)];
    for (const n of [1, 2, 3, 4]) {
      const beside = Array.from({ length: 4 }, (_, k) => (k < n ? blue : red));
      const { insulation } = doubtBorder(red, beside);
      const want = (1 - n / 8) * of(red.insulation, 'red') + (n / 8) * of(blue.insulation, 'red');
      expect(of(insulation, 'red')).toBeCloseTo(want, 9);
      expect(of(insulation, 'blue')).toBeCloseTo((n / 8) * of(blue.insulation, 'blue'), 2);
    }
  });

  it('never turns the name into its neighbor, whatever lies around', () => {
    const [red, blue] = [reading(RED), reading(BLUE)];
    const { insulation } = doubtBorder(red, [blue, blue, blue, blue]);
    expect(of(insulation, 'red')).toBeGreaterThan(0.49);
  });

  it('twin: with one color all around nothing changes', () => {
    const red = reading(RED);
    expect(doubtBorder(red, [red, reading([0.4, 0.025, 0.02]), red, red])).toEqual(red);
  });

  it('what could not be read has no say, and nothing is said of it', () => {
    const [red, blue] = [reading(RED), reading(BLUE)];
    const unread = { ...blue, body: null };
    expect(doubtBorder(red, [unread, unread])).toEqual(red);
    expect(doubtBorder(unread, [red, red])).toEqual(unread);
  });

  it('the yellow beside green-yellow is its own yellow; beside green it is a neighbor', () => {
    const [green, yellow] = [reading(GREEN), reading(YELLOW)];
    const both = reading(GREEN, { rgb: YELLOW, where: (_, t) => t > 0 });
    expect(both.insulation.best).toBe('green-yellow');
    expect(doubtBorder(both, [yellow, green])).toEqual(both);
    expect(doubtBorder(green, [yellow, yellow]).insulation.doubts[0]?.code).toBe('color.doubt.border');
    // Twin: another color beside green-yellow is a neighbor too.
    expect(doubtBorder(both, [reading(BLUE)]).insulation.doubts[0]?.code).toBe('color.doubt.border');
  });

  it('the color of its own stripe or tape is no neighbor', () => {
    const [red, blue] = [reading(RED), reading(BLUE)];
    const striped = { ...red, stripe: { name: 'blue', confidence: 0.9, layout: 'along' } as const };
    const tape = { name: 'blue', confidence: 0.9, at: [0, 0], candidates: [], cover: 1, stretch: [0, 1] } as const;
    expect(doubtBorder(striped, [blue])).toEqual(striped);
    expect(doubtBorder({ ...red, tape: [tape] }, [blue]).insulation).toEqual(red.insulation);
    // Twin: a third color is.
    expect(doubtBorder(striped, [reading(YELLOW)]).insulation.doubts[0]?.code).toBe('color.doubt.border');
  });
});

describe('a finger on another color than the trace shows', () => {
  const reading = (body: RibbonRecipe['body']) => nameInsulations([makeRibbon({ body })], LIGHT).readings[0]!;
  /** Touched pixels, one below the other. */
  const patch = (rgb: readonly number[], noise = 0.01): Ribbon => {
    const length = 21;
    const all = Float32Array.from({ length: 3 * length }, (_, k) => rgb[k % 3]!);
    const usable = new Uint8Array(length).fill(1);
    return { length, across: 1, stepPx: 1, widthPx: 12, rgb: all, usable, noise, blurPx: 0.6 };
  };

  it('leaves open which one is meant, and says so', () => {
    const red = reading(RED);
    const { insulation } = doubtElsewhere(red, patch(YELLOW), LIGHT);
    expect(red.insulation.confidence).toBeGreaterThan(0.95);
    expect(insulation.confidence).toBeLessThan(0.6);
    expect(insulation.set).toEqual(expect.arrayContaining(['red', 'yellow']));
    expect(insulation.doubts[0]?.code).toBe('color.doubt.border');
    isList(insulation);
  });

  it('twin: nothing changes on its own color, lit or shaded, and nothing without a touch or a reading', () => {
    const red = reading(RED);
    for (const factor of [0.4, 1, 1.4]) expect(doubtElsewhere(red, patch(dimmed(RED, factor)), LIGHT)).toEqual(red);
    expect(doubtElsewhere(red, { ...patch([]), length: 0, rgb: new Float32Array(0) }, LIGHT)).toEqual(red);
    const unread = { ...red, body: null };
    expect(doubtElsewhere(unread, patch(YELLOW), LIGHT)).toEqual(unread);
  });

  it.each([
    ['red', RED],
    ['blue', BLUE],
    ['black', [0.012, 0.012, 0.012] as const],
  ])('a highlight on %s is its own surface, under any lamp', (_, body) => {
    for (const lamp of [
      [1, 1, 1],
      [1.25, 1, 0.7],
    ] as const) {
      const lit = body.map((v, c) => v * lamp[c]!) as [number, number, number];
      const light = posteriorOf({ mean: lamp, xy: [0.35, 0.36], errorDeg: 2, basis: 'scene statistics' }, 0.9);
      const { readings } = nameInsulations([makeRibbon({ body: lit })], light);
      const shining = lit.map((v, c) => 0.7 * v + 0.5 * lamp[c]!);
      expect(doubtElsewhere(readings[0]!, patch(shining), light)).toEqual(readings[0]);
    }
  });

  it('twin: what is brighter but no lamp is another conductor', () => {
    const blue = reading(BLUE);
    expect(doubtElsewhere(blue, patch(ORANGE), LIGHT).insulation.doubts[0]?.code).toBe('color.doubt.border');
  });

  it('noise of 16 levels on its own color is not taken for another color', () => {
    const red = reading(RED);
    // 16 levels at mid gray, in linear light.
    const sd = 0.07;
    for (let seed = 1; seed <= 40; seed++) {
      const random = seeded(seed);
      const noisy = patch(RED, sd);
      noisy.rgb.forEach((v, k) => {
        noisy.rgb[k] = Math.max(0, v + sd * Math.sqrt(v / 0.2) * normal(random));
      });
      expect(doubtElsewhere(red, noisy, LIGHT)).toEqual(red);
    }
  });
});

describe('two touches', () => {
  const patch = (rgb: readonly number[]) => Float32Array.from({ length: 27 }, (_, k) => rgb[k % 3]!);
  const times = (rgb: readonly number[], factor: number) => patch(rgb.map((v) => factor * v));

  it('are of one insulation in light and in shade, of two where color or light differs more', () => {
    expect(alikeToTouch(patch(RED), times(RED, 0.6))).toBe(true);
    expect(alikeToTouch(patch(RED), times(RED, 0.38))).toBe(true);
    expect(alikeToTouch(patch(RED), times(RED, 0.33))).toBe(false);
    expect(alikeToTouch(patch(RED), patch(BLUE))).toBe(false);
    expect(alikeToTouch(patch([0.9, 0.9, 0.9]), patch([0.02, 0.02, 0.02]))).toBe(false);
  });

  it('do not depend on their order', () => {
    for (const [p, q] of [
      [patch(RED), times(RED, 0.33)],
      [patch(RED), times(RED, 0.38)],
      [patch(RED), patch(BLUE)],
    ] as const)
      expect(alikeToTouch(q, p)).toBe(alikeToTouch(p, q));
  });

  it('in the dark, where light is not measured, are not told apart by it', () => {
    expect(alikeToTouch(patch([0, 0, 0]), patch([5e-5, 5e-5, 5e-5]))).toBe(true);
    expect(alikeToTouch(patch([5e-5, 5e-5, 5e-5]), patch([0, 0, 0]))).toBe(true);
  });

  it('say nothing where there are no pixels', () => {
    expect(alikeToTouch(patch(RED), new Float32Array())).toBe(true);
    expect(alikeToTouch(new Float32Array(), patch(RED))).toBe(true);
  });
});
