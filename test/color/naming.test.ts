import { convertLab65ToRgb, convertRgbToLrgb } from 'culori/fn';
import { describe, expect, it } from 'vitest';
import { type LightPosterior, nameInsulations, type RibbonReading } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { summarize } from '../../src/color/light/posterior';
import { COLOR_NAMES, type ColorName, IEC_60757, type Ribbon } from '../../src/flow';
import { some } from '../cases';
import centers from '../published/insulation-centers.json';
import munsell from '../published/munsell-subset.json';
import { makeRibbon, type RibbonRecipe } from './make-ribbon';

const neutral: LightPosterior = summarize(priorModes(), {
  basis: 'scene statistics',
  anchor: 0.8,
  mixedLightDeg: 0,
});

const linear = (lab: readonly number[], scale = 0.8): [number, number, number] => {
  const rgb = convertRgbToLrgb(convertLab65ToRgb({ l: lab[0]!, a: lab[1]!, b: lab[2]! }));
  return [Math.max(0, rgb.r) * scale, Math.max(0, rgb.g) * scale, Math.max(0, rgb.b) * scale];
};

const nameOf = (code: string): ColorName => COLOR_NAMES.find((n) => IEC_60757[n] === code)!;
const BODIES: { name: ColorName; body: [number, number, number] }[] = centers.telephone.rows.map((row) => ({
  name: nameOf(row.code),
  body: linear(munsell.entries.find((e) => e.notation === row.munsell)!.lab_D65),
}));
const bodyOf = (name: ColorName) => BODIES.find((b) => b.name === name)!.body;
const one = (recipe: RibbonRecipe, light = neutral): RibbonReading =>
  nameInsulations([makeRibbon(recipe)], light).readings[0]!;

describe('published centers (EIA-359-A order, Munsell notations from memory)', () => {
  it.each(BODIES)('$name: its center is in the set, and named when seen beside the others', ({ name, body }) => {
    expect(one({ body }).insulation.set).toContain(name);
  });
  it('all twelve seen together are named rightly', () => {
    const { readings } = nameInsulations(
      BODIES.map(({ body }, i) => makeRibbon({ body, seed: i + 3 })),
      neutral,
    );
    expect(readings.map((r) => r.insulation.best)).toEqual(BODIES.map((b) => b.name));
    for (const r of readings) expect(r.covering).toBe('insulated');
  });
  it('twin: with red and blue channels exchanged the colored ones are not', () => {
    const { readings } = nameInsulations(
      BODIES.map(({ body }, i) => makeRibbon({ body: [body[2], body[1], body[0]], seed: i + 3 })),
      neutral,
    );
    const colored = ['blue', 'orange', 'brown', 'red', 'yellow', 'turquoise'];
    BODIES.forEach((b, i) => {
      if (colored.includes(b.name)) expect(readings[i]!.insulation.best).not.toBe(b.name);
    });
  });
});

describe('a reading is a distribution', () => {
  it('probabilities are between 0 and 1, fall, and sum to at most 1; the set is never empty', () => {
    for (const { body } of BODIES) {
      const { candidates, set, confidence, best } = one({ body, exposure: 0.3 }).insulation;
      const sum = candidates.reduce((s, c) => s + c.probability, 0);
      expect(sum).toBeLessThanOrEqual(1 + 1e-9);
      expect(sum).toBeGreaterThan(0.5);
      expect([...candidates].sort((a, b) => b.probability - a.probability)).toEqual(candidates);
      expect(set[0]).toBe(best);
      expect(candidates[0]).toEqual({ name: best, probability: confidence });
    }
  });
  it('an empty ribbon gives every name and says why', () => {
    const empty: Ribbon = {
      ...makeRibbon({ body: [0, 0, 0] }),
      length: 0,
      rgb: new Float32Array(0),
      usable: new Uint8Array(0),
    };
    const { insulation } = nameInsulations([empty], neutral).readings[0]!;
    expect(insulation.set).toHaveLength(COLOR_NAMES.length);
    expect(insulation.doubts.map((d) => d.code)).toEqual(['color.doubt.empty']);
  });
  it('does not depend on the order of the ribbons', () => {
    const ribbons = BODIES.slice(0, 6).map(({ body }, i) => makeRibbon({ body, seed: i + 1 }));
    const forward = nameInsulations(ribbons, neutral).readings;
    const backward = [...nameInsulations([...ribbons].reverse(), neutral).readings].reverse();
    forward.forEach((r, i) => {
      expect(backward[i]!.insulation.best).toBe(r.insulation.best);
      expect(backward[i]!.insulation.confidence).toBeCloseTo(r.insulation.confidence, 9);
    });
  });
});

/** Noise moves the measured color itself a little: the mean over seeds and some slack allow for it. */
const SLACK = 0.04;
const surety = (recipe: RibbonRecipe, light?: LightPosterior): number => {
  const seeds = [1, 2, 3, 4, 5, 6];
  return seeds.reduce((sum, seed) => sum + one({ ...recipe, seed }, light).insulation.confidence, 0) / seeds.length;
};

describe('a worse photo is never surer', () => {
  const worse: { label: string; make: (k: number) => Partial<RibbonRecipe>; light?: (k: number) => LightPosterior }[] =
    [
      {
        label: 'darker (photo and its white together)',
        make: (k) => ({ exposure: 0.5 ** k }),
        light: (k) => ({ ...neutral, anchor: 0.8 * 0.5 ** k }),
      },
      { label: 'noisier', make: (k) => ({ noise: 0.005 * 2 ** k }) },
      { label: 'blurrier', make: (k) => ({ blurPx: 0.8 * 1.6 ** k }) },
      { label: 'thinner', make: (k) => ({ widthPx: 14 / 1.5 ** k }) },
    ];
  for (const { label, make, light } of worse) {
    it.each(some(BODIES))(`${label}: $name`, ({ body }) => {
      let last = 1;
      for (const k of [0, 1, 2, 3, 4]) {
        const confidence = surety({ body, ...make(k) }, light?.(k));
        expect(confidence).toBeLessThanOrEqual(last + SLACK);
        last = Math.min(last, confidence);
      }
    });
  }
  it.each(some(BODIES))('clipped: $name', ({ body }) => {
    const clean = surety({ body });
    const hot = Math.max(...body);
    for (const share of [0.9, 0.7, 0.5]) {
      expect(surety({ body, clip: hot * share })).toBeLessThanOrEqual(clean + SLACK);
    }
  });
  it('twin: taking noise away does raise it somewhere', () => {
    const gains = BODIES.map(
      ({ body }) =>
        one({ body, exposure: 0.05, noise: 0.001 }).insulation.confidence -
        one({ body, exposure: 0.05, noise: 0.05 }).insulation.confidence,
    );
    expect(Math.max(...gains)).toBeGreaterThan(0.1);
  });
});

describe('exposure', () => {
  it.each(BODIES)('twice or half the exposure gives no name that is not in the set: $name', ({ body }) => {
    const dim = body.map((v) => v * 0.45) as [number, number, number];
    const { set } = one({ body: dim }).insulation;
    for (const exposure of [0.5, 2]) {
      const light = { ...neutral, anchor: 0.8 * Math.min(exposure, 1.1) };
      expect(set).toContain(one({ body: dim, exposure }, light).insulation.best);
    }
  });
});

describe('what lies on a conductor', () => {
  it('a highlight along a red conductor leaves it red, without a stripe', () => {
    const reading = one({ body: bodyOf('red'), highlight: 0.6 });
    expect(reading.insulation.best).toBe('red');
    expect(reading.stripe).toBeNull();
  });
  it('a highlight on black is not white', () => {
    const reading = one({ body: bodyOf('black'), highlight: 0.3 });
    expect(reading.insulation.best).toBe('black');
    expect(reading.stripe).toBeNull();
  });
  it('green with yellow is green-yellow', () => {
    const reading = one({ body: bodyOf('green'), second: { rgb: bodyOf('yellow'), where: (_, t) => t > 0.1 } });
    expect(reading.insulation.best).toBe('green-yellow');
  });
  it('green with yellow in a spiral too', () => {
    const where = (i: number, t: number) => (i / 12 + t / 2) % 1 > 0.5;
    expect(one({ body: bodyOf('green'), second: { rgb: bodyOf('yellow'), where } }).insulation.best).toBe(
      'green-yellow',
    );
  });
  it.each([
    { base: 'orange', stripe: 'blue' },
    { base: 'brown', stripe: 'yellow' },
    { base: 'black', stripe: 'red' },
    { base: 'white', stripe: 'blue' },
    { base: 'gray', stripe: 'red' },
  ] as const)('$base with a $stripe stripe along it', ({ base, stripe }) => {
    const reading = one({ body: bodyOf(base), second: { rgb: bodyOf(stripe), where: (_, t) => t > -0.1 && t < 0.35 } });
    expect(reading.stripe?.name).toBe(stripe);
    expect(reading.stripe?.layout).toBe('along');
    expect(reading.insulation.set).toContain(base);
  });
  it('rings are told from stripes', () => {
    const reading = one({ body: bodyOf('white'), second: { rgb: bodyOf('red'), where: (i) => i % 15 < 5 } });
    expect(reading.stripe).toMatchObject({ name: 'red', layout: 'rings' });
  });
  it('twin: one color gives no stripe', () => {
    for (const { body } of BODIES) expect(one({ body, noise: 0.02 }).stripe).toBeNull();
  });
  it('a stripe that was not seen stays possible', () => {
    const { hiddenStripe } = one({ body: bodyOf('orange') });
    expect(hiddenStripe).toBeGreaterThan(0);
    expect(hiddenStripe).toBeLessThan(0.2);
  });
});

describe('two colors of nearly the same share', () => {
  const striped = (upTo: number) =>
    one({ body: bodyOf('orange'), second: { rgb: bodyOf('violet'), where: (_, t) => t < upTo } }).insulation;

  it('leave open which of them is the base, so that another stretch cannot contradict surely', () => {
    for (const { best, confidence, set } of [striped(-0.12), striped(0.12)]) {
      expect(['orange', 'violet']).toContain(best);
      expect(confidence).toBeLessThan(0.9);
      expect(set).toEqual(expect.arrayContaining(['orange', 'violet']));
    }
  });

  it('a narrow stripe leaves the base sure', () => {
    const { insulation, stripe } = one({
      body: bodyOf('orange'),
      second: { rgb: bodyOf('violet'), where: (_, t) => Math.abs(t) < 0.18 },
    });
    expect([insulation.best, stripe?.name]).toEqual(['orange', 'violet']);
    expect(insulation.confidence).toBeGreaterThan(striped(-0.12).confidence);
  });
});

describe('a little yellow on green', () => {
  const green = (rows: number) =>
    one({
      body: bodyOf('green'),
      second: { rgb: bodyOf('yellow'), where: (i, t) => i < rows && Math.abs(t + 0.3 - i / 8) < 0.3 },
    }).insulation;

  it('keeps green from being sure, and green-yellow from being excluded', () => {
    const { confidence, set } = green(5);
    expect(set).toEqual(expect.arrayContaining(['green', 'green-yellow']));
    expect(confidence).toBeLessThan(0.9);
  });

  it('green without any stays what it was', () => {
    expect(green(0).best).toBe('green');
    expect(green(0).confidence).toBeGreaterThan(0.9);
  });
});

describe('a little green on yellow', () => {
  const yellow = (band: number) =>
    one({ body: bodyOf('yellow'), second: { rgb: bodyOf('green'), where: (_, t) => Math.abs(t) < band } });

  it('is green-yellow as far as it is a stripe: no sure yellow', () => {
    const { insulation, stripe } = yellow(0.12);
    expect(insulation.candidates.find((c) => c.name === 'green-yellow')!.probability).toBeGreaterThan(0.3);
    if (insulation.best === 'yellow') expect(insulation.confidence).toBeLessThan(0.7);
    expect(stripe).toBeNull();
  });

  it('twin: yellow without any is surely yellow', () => {
    expect(yellow(0).insulation.best).toBe('yellow');
    expect(yellow(0).insulation.confidence).toBeGreaterThan(0.9);
  });
});
