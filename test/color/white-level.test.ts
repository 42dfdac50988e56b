import { describe, expect, it } from 'vitest';
import { nameInsulations, type ReferenceSample } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { summarize } from '../../src/color/light/posterior';
import type { ColorName } from '../../src/flow';
import munsell from '../published/munsell-subset.json';
import { makeRibbon } from './make-ribbon';

const light = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
/** Luminous reflectance of a neutral Munsell chip, from its published CIELAB lightness (CIE 15). */
const reflectance = (notation: string): number =>
  ((munsell.entries.find((e) => e.notation === notation)!.lab_D65[0]! + 16) / 116) ** 3;
const neutral = (y: number): [number, number, number] => [y, y, y];
const sheet = (y: number, kind: 'white' | 'gray' = 'white'): ReferenceSample => ({
  kind,
  rgb: Float32Array.from({ length: 300 }, () => y),
});

function probability(y: number, name: ColorName, references: readonly ReferenceSample[]): number {
  const { readings } = nameInsulations([makeRibbon({ body: neutral(y) })], light, { references });
  return readings[0]!.insulation.candidates.find((c) => c.name === name)?.probability ?? 0;
}

describe('a tapped sheet of paper tells the lightness too', () => {
  const lit = 0.5;
  it('Munsell N5 beside bright paper is more surely gray than without the paper', () => {
    const y = reflectance('N5') * lit;
    expect(probability(y, 'gray', [sheet(0.87 * lit)])).toBeGreaterThan(probability(y, 'gray', []));
  });
  it('Munsell N9 as bright as the paper is more surely white', () => {
    const y = reflectance('N9') * lit;
    expect(probability(y, 'white', [sheet(0.87 * lit)])).toBeGreaterThan(probability(y, 'white', []));
  });
  it('twin: a sheet as dim as a gray conductor makes it gray when it is a gray card, not when it is called white', () => {
    const y = reflectance('N5') * lit;
    const [card, paper] = [sheet(0.18 * lit, 'gray'), sheet(0.18 * lit)];
    expect(probability(y, 'gray', [card])).toBeGreaterThan(2 * probability(y, 'gray', [paper]));
  });
});
