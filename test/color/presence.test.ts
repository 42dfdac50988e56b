import { describe, expect, it } from 'vitest';
import { doubtPresence, nameInsulations, type RibbonReading } from '../../src/color';
import { posteriorOf } from '../../src/color/light/posterior';
import type { ColorName } from '../../src/flow';
import { makeRibbon } from './make-ribbon';

const LIGHT = posteriorOf({ mean: [1, 1, 1], xy: [0.3127, 0.329], errorDeg: 2, basis: 'scene statistics' }, 0.9);
// Linear sRGB of plain plastics, invented.
const RED = [0.42, 0.02, 0.02] as const;
const BLUE = [0.02, 0.08, 0.4] as const;

const read = (...bodies: readonly (readonly [number, number, number])[]): readonly RibbonReading[] =>
  nameInsulations(
    bodies.map((body, k) => makeRibbon({ body, seed: k + 1 })),
    LIGHT,
  ).readings;
const of = ({ insulation }: RibbonReading, name: ColorName): number =>
  insulation.candidates.find((c) => c.name === name)?.probability ?? 0;

describe('the name of a trace that may be no conductor', () => {
  const plain = read(BLUE, RED, RED, RED);

  it('is not sure, keeps its best guess, and has what the photo is full of in its set', () => {
    const [doubted] = doubtPresence(plain, [0.6, 0.99, 0.99, 0.99]);
    expect(plain[0]!.insulation.confidence).toBeGreaterThan(0.95);
    expect(plain[0]!.insulation.set).toEqual(['blue']);
    expect(doubted!.insulation.best).toBe('blue');
    expect(doubted!.insulation.confidence).toBeLessThan(0.6);
    expect(doubted!.insulation.set).toEqual(expect.arrayContaining(['blue', 'red']));
    expect(doubted!.insulation.doubts[0]?.code).toBe('color.doubt.presence');
    expect(of(doubted!, 'red')).toBeGreaterThan(5 * of(doubted!, 'green'));
  });

  it('twin: of a trace that surely is one stays as it was, whatever stands beside it', () => {
    const all = doubtPresence(plain, [0.99, 0.5, 0.6, 0.95]);
    expect(all[0]).toBe(plain[0]);
    expect(all[3]).toBe(plain[3]);
    expect(all[1]).not.toEqual(plain[1]);
  });

  it('falls with presence, is sure again only where the trace is, and is never surer than before', () => {
    const at = (presence: number) => doubtPresence(plain, [presence, 0.99, 0.99, 0.99])[0]!.insulation;
    const said = [0.5, 0.75, 0.8, 0.85, 0.89, 0.92, 0.95, 1].map((p) => at(p).confidence);
    expect(said).toEqual([...said].sort((a, b) => a - b));
    expect(at(0.89).confidence).toBeLessThan(0.9);
    for (const confidence of said) expect(confidence).toBeLessThanOrEqual(plain[0]!.insulation.confidence);
  });

  it('stays a distribution that falls, with the best first', () => {
    for (const presence of [0.5, 0.7, 0.85, 0.93])
      for (const { insulation } of doubtPresence(plain, [presence, presence, 0.99, 0.5])) {
        const { candidates, best, set } = insulation;
        expect(candidates[0]!.name).toBe(best);
        expect(set[0]).toBe(best);
        expect(candidates.reduce((sum, c) => sum + c.probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
        candidates.forEach((c, k) => {
          expect(c.probability).toBeLessThanOrEqual(candidates[k - 1]?.probability ?? 1);
        });
      }
  });

  it('keeps an unsure best guess although the photo is full of another color', () => {
    const unsure: RibbonReading = {
      ...plain[0]!,
      insulation: {
        ...plain[0]!.insulation,
        confidence: 0.4,
        candidates: [
          { name: 'blue', probability: 0.4 },
          { name: 'red', probability: 0.35 },
          { name: 'violet', probability: 0.25 },
        ],
      },
    };
    const [doubted] = doubtPresence([unsure, ...plain.slice(1)], [0.5, 0.99, 0.99, 0.99]);
    expect(doubted!.insulation.best).toBe('blue');
    expect(doubted!.insulation.candidates[0]!.name).toBe('blue');
    expect(of(doubted!, 'red')).toBeGreaterThan(0.35);
  });

  it('goes for bare metal too, and a trace that could not be read keeps its reading', () => {
    const bare: RibbonReading = { ...plain[0]!, covering: 'bare', coveringConfidence: 0.98 };
    const empty: RibbonReading = { ...plain[1]!, body: null };
    const [metal, none] = doubtPresence([bare, empty], [0.6, 0.6]);
    expect(metal!.covering).toBe('bare');
    expect(metal!.coveringConfidence).toBeCloseTo(0.74, 2);
    expect(none).toBe(empty);
  });
});
