import { describe, expect, it } from 'vitest';
import { type LightPosterior, nameInsulations, type RibbonReading } from '../../../src/color';
import { priorModes } from '../../../src/color/light/estimate-light';
import { summarize } from '../../../src/color/light/posterior';
import { type FineRecipe, makeFine, type Rgb } from './make-fine';

const LIGHT: LightPosterior = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
/** Linear sRGB of invented insulation, fully lit. */
const BLACK: Rgb = [0.012, 0.012, 0.013];
const BLUE: Rgb = [0.03, 0.08, 0.42];
const RED: Rgb = [0.42, 0.025, 0.03];
const WHITE: Rgb = [0.62, 0.61, 0.58];
const YELLOW: Rgb = [0.62, 0.44, 0.03];
const BROWN: Rgb = [0.11, 0.045, 0.02];

function read(recipe: FineRecipe, finger?: { row: number }): RibbonReading {
  const fine = makeFine(recipe);
  const at = finger ? fine.centers[finger.row]! : null;
  const pixels = finger ? fine.rgb.slice((finger.row * 12 + 4) * 3, (finger.row * 12 + 8) * 3) : null;
  return nameInsulations([fine], LIGHT, { fine: [fine], fingers: [at], touched: [pixels] }).readings[0]!;
}
const band = (rgb: Rgb, from: number, to: number) => ({ rgb, where: (i: number) => i >= from && i < to });
const seeds = [1, 2, 3, 4, 5];

describe('phase tape', () => {
  it('a black conductor with blue tape at its end is a black conductor', () => {
    for (const seed of seeds) {
      const { insulation, tape } = read({ body: BLACK, on: [band(BLUE, 0, 30)], seed });
      expect(insulation.best).toBe('black');
      expect(tape).toHaveLength(1);
      expect(tape[0]!.name).toBe('blue');
      expect(tape[0]!.stretch![0]).toBeLessThan(0.05);
      expect(Math.abs(tape[0]!.stretch![1] - 30 / 96)).toBeLessThan(0.06);
      expect(tape[0]!.cover).toBeGreaterThan(0.9);
    }
  });
  it('a finger beside the tape is told of the insulation', () => {
    expect(read({ body: WHITE, on: [band(RED, 60, 96)] }, { row: 20 }).touched).toBeNull();
  });
  it('twin: without tape none is told, nor under a shadow that falls across', () => {
    for (const seed of seeds) {
      expect(read({ body: BLACK, seed }).tape).toEqual([]);
      expect(read({ body: RED, seed, light: (i) => (i > 40 && i < 60 ? 0.35 : 1) }).tape).toEqual([]);
    }
  });
});

describe('stripes', () => {
  it('rings', () => {
    const rings = { rgb: YELLOW, where: (i: number) => i % 24 < 6 };
    const { stripe, tape } = read({ body: BROWN, on: [rings], length: 192, widthPx: 20 });
    expect(stripe?.layout).toBe('rings');
    expect(stripe?.name).toBe('yellow');
    expect(tape).toEqual([]);
  });
  it('half and half, either color may be the insulation: neither is sure', () => {
    const halves = { rgb: RED, where: (i: number) => i % 24 < 12 };
    for (const seed of seeds) {
      const { insulation, stripe } = read({ body: BLUE, on: [halves], length: 192, widthPx: 20, seed });
      expect(insulation.confidence).toBeLessThan(0.9);
      expect(insulation.set).toEqual(expect.arrayContaining(['blue', 'red']));
      expect(stripe?.name).not.toBe(insulation.best);
    }
  });
  it('twin: beside thin rings the insulation is sure', () => {
    const rings = { rgb: RED, where: (i: number) => i % 24 < 4 };
    for (const seed of seeds) {
      const { insulation } = read({ body: BLUE, on: [rings], length: 192, widthPx: 20, seed });
      expect(insulation.best).toBe('blue');
      expect(insulation.confidence).toBeGreaterThan(0.9);
    }
  });
  it('twin: a highlight line, a shadow along, and nothing at all are no stripes', () => {
    for (const seed of seeds) {
      expect(read({ body: BLACK, highlight: 0.25, seed }).stripe).toBeNull();
      expect(read({ body: BLUE, highlight: 0.3, seed }).stripe).toBeNull();
      expect(read({ body: RED, seed }).stripe).toBeNull();
    }
  });
});

describe('fading', () => {
  const pale = (k: number): Rgb => [0.42 + 0.2 * k, 0.025 + 0.35 * k, 0.03 + 0.33 * k];
  const steps = Array.from({ length: 12 }, (_, k) => band(pale((11 - k) / 11), k * 16, (k + 1) * 16));
  const faded: FineRecipe = { body: RED, length: 192, on: steps };
  const green = ({ body }: RibbonReading): number => body!.rgb[1] / body!.rgb[0];

  it('tells toward which end it is paler, and which stretch speaks', () => {
    const { along } = read(faded);
    expect(along?.fading?.toward).toBe('left');
    expect(along!.fading!.cleanest[0]).toBeGreaterThan(0.5);
  });
  it('the cleanest stretch speaks for the insulation', () => {
    const reading = read(faded);
    const [clean, middle] = [pale(2 / 11), pale(5.5 / 11)];
    expect(green(reading)).toBeLessThan(1.1 * (clean[1] / clean[0]));
    expect(green(reading)).toBeLessThan(0.6 * (middle[1] / middle[0]));
    expect(reading.insulation.best).toBe('red');
  });
  it('twin: a finger on the faded end is told what it touches', () => {
    const { body } = read(faded, { row: 30 });
    const clean = pale(2 / 11);
    expect(body!.rgb[1] / body!.rgb[0]).toBeGreaterThan(2 * (clean[1] / clean[0]));
  });
  it('twin: none on an evenly colored one', () => {
    expect(read({ body: RED, length: 192 }).along?.fading).toBeNull();
  });
});
