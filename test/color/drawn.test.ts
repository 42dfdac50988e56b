import { beforeEach, describe, expect, it } from 'vitest';
import { doubtDrawn, type LightPosterior, looksDrawn, nameInsulations, type RibbonReading } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { summarize } from '../../src/color/light/posterior';
import type { Ribbon } from '../../src/flow';
import { makeRibbon } from './make-ribbon';

const neutral: LightPosterior = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
const INKS = [
  [0.42, 0.025, 0.03],
  [0.02, 0.08, 0.4],
  [0.03, 0.22, 0.05],
  [0.6, 0.45, 0.02],
] as const;
/** A ribbon of one ink: no shade across, a level of grain. */
function line(rgb: readonly [number, number, number]): Ribbon {
  const ribbon = makeRibbon({ body: rgb });
  return { ...ribbon, rgb: ribbon.rgb.map((_, k) => rgb[k % 3]! * (1 + 0.004 * Math.sin(k))) };
}
const read = (ribbons: readonly Ribbon[]): readonly RibbonReading[] => nameInsulations(ribbons, neutral).readings;
let round: readonly RibbonReading[];
let flat: readonly RibbonReading[];
beforeEach(() => {
  round = read(INKS.map((body, k) => makeRibbon({ body, seed: k + 1 })));
  flat = read(INKS.map(line));
});

describe('a drawing', () => {
  it('is told by lines without any shade across; a lit cylinder always has some (Lambert, cosine law)', () => {
    expect(looksDrawn(flat)).toBe(true);
    expect(looksDrawn(round)).toBe(false);
    expect(looksDrawn([...flat.slice(0, 3), ...round.slice(0, 2)])).toBe(true);
    expect(looksDrawn([...flat.slice(0, 2), ...round.slice(0, 2)])).toBe(false);
  });

  it('is not told from fewer than three lines, nor from what is dark, nor from what could not be read', () => {
    expect(looksDrawn(flat.slice(0, 2))).toBe(false);
    const dark = read(Array.from({ length: 5 }, () => line([0.01, 0.01, 0.01])));
    expect(looksDrawn(dark)).toBe(false);
    expect(looksDrawn(flat.map((r) => ({ ...r, body: null })))).toBe(false);
    expect(looksDrawn([])).toBe(false);
  });

  it('has no sure name, says why first, and stays a distribution', () => {
    for (const reading of flat) {
      const { insulation } = doubtDrawn(reading);
      expect(insulation.confidence).toBeLessThanOrEqual(0.5);
      expect(insulation.confidence).toBeLessThanOrEqual(reading.insulation.confidence);
      expect(insulation.doubts[0]?.code).toBe('color.doubt.drawn');
      expect(insulation.candidates[0]).toEqual({ name: insulation.best, probability: insulation.confidence });
      const sum = insulation.candidates.reduce((s, c) => s + c.probability, 0);
      expect(sum).toBeLessThanOrEqual(1 + 1e-9);
      expect(sum).toBeGreaterThan(0.8);
      expect(insulation.set).toContain(insulation.best);
      expect(insulation.set.length).toBeGreaterThanOrEqual(reading.insulation.set.length);
    }
  });

  it('twin: an unsure name stays as unsure as it was', () => {
    const [reading] = flat;
    const unsure = { ...reading!, insulation: { ...reading!.insulation, confidence: 0.3 } };
    expect(doubtDrawn(unsure).insulation.confidence).toBe(0.3);
  });
});
