import { describe, expect, it } from 'vitest';
import { nameInsulations, type ReferenceSample } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { summarize } from '../../src/color/light/posterior';
import { calibratedOpinion, ranked } from '../../src/color/naming/calibrate';
import { lostShare } from '../../src/color/naming/lost';
import { SURFACES } from '../../src/color/palette/likelihood';
import type { Body } from '../../src/color/ribbon/body';
import type { InsulationColor } from '../../src/flow';
import { normal, seeded } from './make-ribbon';
import { blurrier, darker, longer, noisier, type Shot } from './spoil';
import { wornRibbon } from './worn-ribbon';

const neutral = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.45, mixedLightDeg: 0 });
const SURE = 0.9;

const random = seeded(5);
const anyBody = (): Body => {
  const level = 0.003 + 0.9 * random() ** 2;
  return {
    rgb: [level * (0.2 + 0.8 * random()), level * (0.2 + 0.8 * random()), level * (0.2 + 0.8 * random())],
    scatter: [4e-4 * random(), 0, 4e-4 * random()],
    count: 1 + Math.floor(200 * random()),
    usable: random(),
    agreement: random(),
    hues: null,
    gloss: 3 * random(),
    highlightTint: random(),
    widthPx: 3 + 40 * random(),
    blurPx: 3 * random(),
    noise: 0.05 * random(),
  };
};
const BODIES = Array.from({ length: 300 }, anyBody);
const ladderOf = (best: number, p: number): Float64Array[] => [
  Float64Array.from(SURFACES, (_, c) => (c === best ? p : (1 - p) / (SURFACES.length - 1))),
];
const surest = (ladder: Float64Array[], lost: number): number =>
  ranked(calibratedOpinion(ladder, lost).names)[0]!.probability;

describe('the ceiling of a spoiled reading', () => {
  const spoiled: { label: string; make: (body: Body, k: number) => Body }[] = [
    { label: 'darker', make: (b, k) => ({ ...b, rgb: b.rgb.map((v) => v / 2 ** k) as unknown as Body['rgb'] }) },
    { label: 'noisier', make: (b, k) => ({ ...b, noise: b.noise * 2 ** k }) },
    { label: 'blurrier', make: (b, k) => ({ ...b, blurPx: b.blurPx * 1.5 ** k }) },
    { label: 'thinner', make: (b, k) => ({ ...b, widthPx: b.widthPx / 1.5 ** k }) },
    { label: 'clipped', make: (b, k) => ({ ...b, usable: b.usable / 2 ** k }) },
  ];
  it.each(spoiled)('falls with every step: $label', ({ make }) => {
    for (const body of BODIES)
      for (const k of [0, 1, 2, 3])
        expect(lostShare(make(body, k + 1))).toBeGreaterThanOrEqual(lostShare(make(body, k)) - 1e-12);
  });
  it('is passed by no color, however clear: a certain name under it says at most what it allows', () => {
    SURFACES.forEach((surface, best) => {
      if (surface === 'copper' || surface === 'tinned') return;
      for (const p of [0.5, 0.9, 0.999, 1]) {
        const falling = [0, 0.1, 0.2, 0.4, 0.8].map((lost) => surest(ladderOf(best, p), lost));
        for (let k = 1; k < falling.length; k++) expect(falling[k]!).toBeLessThanOrEqual(falling[k - 1]! + 1e-12);
        for (const lost of [0, 0.1, 0.2, 0.4, 0.8])
          expect(surest(ladderOf(best, p), lost)).toBeLessThanOrEqual(surest(ladderOf(best, 1), lost) + 1e-12);
      }
    });
    expect(surest(ladderOf(0, 1), 0.2)).toBeLessThan(SURE);
  });
  it('lets nothing be sure where most was clipped, or noise is as strong as light', () => {
    for (const body of BODIES) {
      expect(surest(ladderOf(2, 1), lostShare({ ...body, usable: 0.15 }))).toBeLessThan(SURE);
      const drowned: Body = { ...body, rgb: [0.004, 0.004, 0.004], noise: 0.05 };
      expect(surest(ladderOf(2, 1), lostShare(drowned))).toBeLessThan(SURE);
    }
  });
  it('twin: a certain name with nothing lost is sure', () => {
    expect(surest(ladderOf(2, 1), 0)).toBeGreaterThan(SURE);
  });
});

const WORN = Array.from({ length: 120 }, (_, k) => wornRibbon(k + 1));
const read = ({ ribbon, light }: Shot): InsulationColor => nameInsulations([ribbon], light).readings[0]!.insulation;
const SHOTS = WORN.map(({ ribbon }): Shot => ({ ribbon, light: neutral }));
const CLEAN = SHOTS.map(read);
const wrong = (k: number, color: InsulationColor): boolean => color.best !== WORN[k]!.name;

describe('worn conductors in a spoiled photo', () => {
  const spoiled: { label: string; make: (shot: Shot) => Shot }[] = [
    { label: 'half the light', make: (s) => darker(s, 0.5) },
    { label: 'a quarter of the light', make: (s) => darker(s, 0.25) },
    { label: 'noise', make: (s) => noisier(s, 0.03) },
    { label: 'much noise', make: (s) => noisier(s, 0.06) },
    { label: 'blur', make: (s) => blurrier(s, 1.5) },
    { label: 'much blur', make: (s) => blurrier(s, 3) },
    { label: 'clipping', make: (s) => longer(s, 4) },
    { label: 'clipping, the bright end of the photo too', make: (s) => longer(s, 8) },
  ];
  it.each(spoiled)('$label: less sure on the whole, and sure of no wrong name that it was not sure of', ({ make }) => {
    const worse = SHOTS.map((shot) => read(make(shot)));
    const rises = worse.map((w, k) => w.confidence - CLEAN[k]!.confidence);
    expect(rises.reduce((sum, d) => sum + d, 0)).toBeLessThan(0);
    worse.forEach((w, k) => {
      const sure = w.confidence >= SURE && CLEAN[k]!.confidence < SURE;
      expect({ k, sureAndWrong: sure && wrong(k, w) }).toEqual({ k, sureAndWrong: false });
    });
  });
  it('twin: the way back makes them surer on the whole', () => {
    const worse = SHOTS.map((shot) => read(noisier(shot, 0.06)));
    const rises = worse.map((w, k) => CLEAN[k]!.confidence - w.confidence);
    expect(rises.reduce((sum, d) => sum + d, 0)).toBeGreaterThan(1);
  });
  it('twice or half the exposure gives no name that is not in the set', () => {
    SHOTS.forEach((shot, k) => {
      for (const other of [longer(shot, 2), longer(shot, 0.5)])
        expect({ k, kept: CLEAN[k]!.set.includes(read(other).best) }).toEqual({ k, kept: true });
    });
  });
  it('twin: the other way of exposing, with the white left where it was, would', () => {
    const strays = SHOTS.filter(
      (shot, k) => !CLEAN[k]!.set.includes(read({ ...longer(shot, 0.06), light: shot.light }).best),
    );
    expect(strays.length).toBeGreaterThan(0);
  });
});

describe('a tapped reference', () => {
  /** Casts as strong as automatic white balance leaves them, and the paper under each. */
  const cast = (k: number): [number, number, number] => {
    const chance = seeded(k + 400);
    const along = 0.09 * normal(chance);
    return [Math.exp(along), 1, Math.exp(-along)];
  };
  const shots = WORN.map(({ ribbon }, k) => {
    const light = cast(k);
    const rgb = ribbon.rgb.map((v, at) => v * light[at % 3]!);
    const paper = Float32Array.from({ length: 90 }, (_, at) => 0.3 * light[at % 3]!);
    const reference: ReferenceSample = { kind: 'white', rgb: paper };
    return { ribbon: { ...ribbon, rgb }, reference };
  });
  const named = (references: (k: number) => ReferenceSample[]) =>
    shots.map(
      ({ ribbon }, k) => nameInsulations([ribbon], neutral, { references: references(k) }).readings[0]!.insulation,
    );
  it('taken away makes no reading surely wrong, and the readings less sure on the whole', () => {
    const beside = named((k) => [shots[k]!.reference]);
    const alone = named(() => []);
    const rise = alone.reduce((sum, a, k) => sum + a.confidence - beside[k]!.confidence, 0);
    expect(rise).toBeLessThan(0);
    alone.forEach((a, k) => {
      const newly = a.confidence >= SURE && beside[k]!.confidence < SURE;
      expect({ k, sureAndWrong: newly && wrong(k, a) }).toEqual({ k, sureAndWrong: false });
    });
  });
  it('twin: a sheet that is blue and said to be white does harm', () => {
    const blue: ReferenceSample = {
      kind: 'white',
      rgb: Float32Array.from({ length: 90 }, (_, at) => [0.1, 0.2, 0.45][at % 3]!),
    };
    const right = (all: readonly InsulationColor[]): number => all.filter((a, k) => !wrong(k, a)).length;
    expect(right(named(() => [blue]))).toBeLessThan(right(named((k) => [shots[k]!.reference])));
  });
});
