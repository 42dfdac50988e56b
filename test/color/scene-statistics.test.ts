import { describe, expect, it } from 'vitest';
import { nameInsulations } from '../../src/color';
import { priorModes } from '../../src/color/light/estimate-light';
import { mixedLightDeg } from '../../src/color/light/mixed-light';
import { nodesOf, summarize } from '../../src/color/light/posterior';
import {
  angleBetween,
  brightPixels,
  grayEdge,
  grayWorld,
  type LogRatio,
  luminanceQuantile,
  type Region,
  shadesOfGray,
  type Thumb,
  thumbOf,
  whole,
} from '../../src/color/light/statistics';
import type { LightMode, LightPosterior } from '../../src/color/light/types';
import { tapesOf } from '../../src/color/naming/along';
import { measurementCov } from '../../src/color/naming/measurement';
import type { Opinion } from '../../src/color/naming/opinion';
import { type Body, ribbonBody } from '../../src/color/ribbon/body';
import { COLOR_NAMES, type ColorName, type Raster } from '../../src/flow';
import { makeRibbon, seeded } from './make-ribbon';
import { makeFine } from './ribbon/make-fine';

/** IEC 61966-2-1, written out anew. */
const linear = (level: number): number => {
  const v = level / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
};
const picture = (width: number, height: number, at: (x: number, y: number) => readonly number[]): Raster => {
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) data.set(at(x, y).slice(0, 3), (y * width + x) * 4);
  return { width, height, data };
};
const random = seeded(11);
const noisy = (width: number, height: number): Raster =>
  picture(width, height, () => [20 + 200 * random(), 20 + 200 * random(), 20 + 200 * random()]);

describe('a photo thinned to a grid', () => {
  it.each([
    [320, 200, 160, 100],
    [200, 320, 100, 160],
    [8, 5, 8, 5],
    [480, 3, 160, 1],
  ])('of %i by %i pixels has %i by %i cells, each the mean light of the four pixels at its middle', (w, h, cw, ch) => {
    const raster = noisy(w, h);
    const { width, height, rgb, usable } = thumbOf(raster);
    expect([width, height]).toEqual([cw, ch]);
    expect(rgb).toHaveLength(cw * ch * 3);
    expect(usable).toHaveLength(cw * ch);
    const step = Math.max(w, h) / Math.max(cw, ch);
    for (let y = 0; y < ch; y++)
      for (let x = 0; x < cw; x++)
        for (let c = 0; c < 3; c++) {
          let sum = 0;
          for (const [ox, oy] of [
            [0, 0],
            [1, 0],
            [0, 1],
            [1, 1],
          ] as const) {
            const px = Math.min(w - 1, Math.floor((x + 0.5) * step) + ox);
            const py = Math.min(h - 1, Math.floor((y + 0.5) * step) + oy);
            sum += linear(raster.data[(py * w + px) * 4 + c]!) / 4;
          }
          expect(rgb[(y * cw + x) * 3 + c]).toBeCloseTo(sum, 5);
        }
  });

  it('does not rely on cells with a clipped pixel, nor on black ones', () => {
    const { usable } = thumbOf(
      picture(160, 40, (x) => (x < 40 ? [255, 90, 90] : x < 80 ? [3, 3, 3] : x < 120 ? [90, 90, 90] : [249, 5, 5])),
    );
    expect([usable[20], usable[60], usable[100], usable[140]]).toEqual([0, 0, 1, 1]);
  });
});

describe('statistics of a scene', () => {
  const thumb: Thumb = (() => {
    const made = thumbOf(noisy(160, 90));
    const usable = Uint8Array.from(made.usable, (v, k) => (k % 7 === 3 ? 0 : v));
    return { ...made, usable };
  })();
  const middle: Region = { left: 31, top: 12, right: 128, bottom: 70 };
  const cellsIn = (region: Region): [number, number][] => {
    const cells: [number, number][] = [];
    for (let y = region.top; y < region.bottom; y++)
      for (let x = region.left; x < region.right; x++) cells.push([x, y]);
    return cells;
  };
  const light = (x: number, y: number, c: number): number => thumb.rgb[(y * thumb.width + x) * 3 + c]!;
  const ok = (x: number, y: number): boolean =>
    x < thumb.width && y < thumb.height && thumb.usable[y * thumb.width + x] === 1;
  const ratioOf = (value: (c: number) => number): LogRatio => [
    Math.log(value(0) / value(1)),
    Math.log(value(2) / value(1)),
  ];
  const minkowski = (power: number, list: (c: number) => number[]): LogRatio =>
    ratioOf((c) => list(c).reduce((sum, v) => sum + v ** power, 0) ** (1 / power));
  const same = (one: LogRatio | null, other: LogRatio): void => {
    expect(one![0]).toBeCloseTo(other[0], 6);
    expect(one![1]).toBeCloseTo(other[1], 6);
  };

  it.each([
    ['the whole picture', { left: 0, top: 0, right: 160, bottom: 90 }],
    ['a part of it', middle],
  ] as const)('of %s are what their papers write down (order 1, 6; edges of order 4)', (_, region) => {
    const used = cellsIn(region).filter(([x, y]) => ok(x, y));
    const values = (c: number) => used.map(([x, y]) => light(x, y, c));
    same(grayWorld(thumb, region), minkowski(1, values));
    same(shadesOfGray(thumb, region), minkowski(6, values));
    const edges = used.filter(([x, y]) => ok(x + 1, y) && ok(x, y + 1));
    same(
      grayEdge(thumb, region),
      minkowski(4, (c) =>
        edges.map(([x, y]) => Math.hypot(light(x + 1, y, c) - light(x, y, c), light(x, y + 1, c) - light(x, y, c))),
      ),
    );
    const luminance = ([x, y]: [number, number]): number =>
      0.2126 * light(x, y, 0) + 0.7152 * light(x, y, 1) + 0.0722 * light(x, y, 2);
    const brightest = [...used].sort((p, q) => luminance(q) - luminance(p)).slice(0, Math.round(0.04 * used.length));
    const bright = brightPixels(thumb, region)!;
    const sums = ratioOf((c) => brightest.reduce((sum, [x, y]) => sum + light(x, y, c), 0));
    // Two cells of equal luminance may change places at the border of the 4 %.
    expect(Math.abs(bright[0] - sums[0])).toBeLessThan(2e-3);
    expect(Math.abs(bright[1] - sums[1])).toBeLessThan(2e-3);
  });

  it('move by a cast of the light and by nothing else (von Kries: each channel by its own factor)', () => {
    const cast: Thumb = { ...thumb, rgb: thumb.rgb.map((v, k) => v * [1.3, 1, 0.7][k % 3]!) };
    const brighter: Thumb = { ...thumb, rgb: thumb.rgb.map((v) => v * 0.4) };
    for (const statistic of [grayWorld, shadesOfGray, grayEdge]) {
      const plain = statistic(thumb, middle)!;
      same(statistic(cast, middle), [plain[0] + Math.log(1.3), plain[1] + Math.log(0.7)]);
      same(statistic(brighter, middle), plain);
    }
  });

  it('do not look beyond their part, nor speak for a handful of cells', () => {
    // Everything outside the part is as red as can be.
    const { left, top, right, bottom } = middle;
    const outside: Thumb = {
      ...thumb,
      rgb: thumb.rgb.map((v, k) => {
        const cell = Math.floor(k / 3);
        const [x, y] = [cell % thumb.width, Math.floor(cell / thumb.width)];
        const inside = x >= left && x < right && y >= top && y < bottom;
        return inside ? v : k % 3 === 0 ? 0.95 : 0.01;
      }),
    };
    for (const statistic of [grayWorld, shadesOfGray, brightPixels])
      same(statistic(outside, middle), statistic(thumb, middle)!);
    expect(grayWorld(thumb, { left: 0, top: 0, right: 4, bottom: 4 })).toBeNull();
    expect(brightPixels(thumb, { left: 0, top: 0, right: 8, bottom: 8 })).toBeNull();
    expect(grayWorld(thumb, { left: 0, top: 0, right: 6, bottom: 6 })).not.toBeNull();
    expect(whole(thumb)).toEqual({ left: 0, top: 0, right: 160, bottom: 90 });
  });

  it('say nothing of a picture in which a channel has no light at all: its ratio is no number', () => {
    for (const only of [0, 1, 2]) {
      const thumb = thumbOf(picture(200, 100, (x) => [0, 1, 2].map((c) => (c === only ? 60 + (x % 100) : 0))));
      for (const statistic of [grayWorld, shadesOfGray, brightPixels])
        expect(statistic(thumb, whole(thumb))).toBeNull();
    }
    // Twin: with a little of each it does.
    const thumb = thumbOf(picture(200, 100, (x) => [60 + (x % 100), 30, 30]));
    expect(grayWorld(thumb, whole(thumb))!.every(Number.isFinite)).toBe(true);
  });

  it('have quantiles of luminance over all cells', () => {
    const all = cellsIn(whole(thumb))
      .map(([x, y]) => 0.2126 * light(x, y, 0) + 0.7152 * light(x, y, 1) + 0.0722 * light(x, y, 2))
      .sort((p, q) => p - q);
    for (const q of [0, 0.25, 0.5, 0.9]) expect(luminanceQuantile(thumb, q)).toBeCloseTo(all[q * all.length]!, 3);
    expect(luminanceQuantile(thumb, 1)).toBeCloseTo(all.at(-1)!, 3);
  });
});

describe('two lamps in the parts of a picture', () => {
  const WARM = [138, 128, 120];
  const COOL = [122, 128, 135];
  const times = (rgb: readonly number[], k: number): number[] => rgb.map((v) => Math.round(v * k));
  const direction = (rgb: readonly number[]): [number, number, number] => [
    linear(rgb[0]!),
    linear(rgb[1]!),
    linear(rgb[2]!),
  ];
  const apart = angleBetween(direction(WARM), direction(COOL));

  it('are as far apart as their grays, whatever the picture is made of beside them', () => {
    const plain = picture(240, 180, (x) => (x < 120 ? WARM : COOL));
    expect(mixedLightDeg(plain, [1, 1, 1])).toBeCloseTo(apart, 4);
    // Dark, clipped and painted pixels have no say: a third of every part is one of them.
    const busy = picture(240, 180, (x, y) => {
      if ((x + y) % 9 === 0) return [220, 30, 30];
      if ((x + y) % 9 === 3) return [30, 32, 34];
      if ((x + y) % 9 === 6) return [255, 220, 200];
      return x < 120 ? WARM : COOL;
    });
    expect(mixedLightDeg(busy, [1, 1, 1])).toBeCloseTo(apart, 4);
  });

  it("are seen in every light: what is nearly neutral is so beside the picture's own gray, not beside white", () => {
    const orange = [235, 150, 78];
    const deeper = [235, 140, 70];
    const lit = picture(240, 180, (x) => (x < 120 ? orange : deeper));
    const gray = direction([235, 145, 74]);
    expect(mixedLightDeg(lit, gray)).toBeCloseTo(angleBetween(direction(orange), direction(deeper)), 4);
    // Twin: taken for white light, all of it is paint.
    expect(mixedLightDeg(lit, [1, 1, 1])).toBe(0);
  });

  it('count each pixel alike, bright or dim: a part half bright warm, half dim cool lies between the two', () => {
    // Left third warm; middle third warm and bright above, cool and dim below in equal number, row by row; right third warm.
    const dim = times(COOL, 0.5);
    const half = picture(240, 180, (x, y) => (x >= 80 && x < 160 && y % 2 === 1 ? dim : WARM));
    const unit = (rgb: readonly number[]): number[] => {
      const d = direction(rgb);
      return d.map((v) => v / Math.hypot(...d));
    };
    const [p, q] = [unit(WARM), unit(dim)];
    const between = p.map((v, c) => v + q[c]!) as [number, number, number];
    expect(mixedLightDeg(half, [1, 1, 1])).toBeCloseTo(angleBetween(direction(WARM), between), 4);
  });

  it('twin: one lamp over light and shade is none', () => {
    expect(
      mixedLightDeg(
        picture(240, 180, (x) => times(WARM, 0.4 + (0.6 * x) / 240)),
        [1, 1, 1],
      ),
    ).toBeLessThan(1.5);
  });
});

describe('the grid that stands for what is known of the light', () => {
  const mode = (cov: LightMode['cov']): LightMode => ({ weight: 1, mean: [0.1, -0.2], cov });

  it.each([
    ['round', [0.01, 0, 0.01]],
    ['long', [0.03, 0, 0.002]],
    ['tall', [0.002, 0, 0.03]],
    ['aslant', [0.02, 0.015, 0.015]],
    ['aslant the other way', [0.02, -0.015, 0.015]],
    ['steep', [0.006, 0.008, 0.02]],
  ] as const)('has the mean and the shape of a %s one', (_, cov) => {
    const nodes = nodesOf([mode(cov)]);
    const p = nodes.map((n) => Math.exp(n.logWeight));
    expect(p.reduce((sum, v) => sum + v, 0)).toBeCloseTo(1, 9);
    const mean = [0, 1].map((k) => nodes.reduce((sum, n, i) => sum + p[i]! * n.at[k as 0 | 1], 0));
    expect(mean[0]).toBeCloseTo(0.1, 9);
    expect(mean[1]).toBeCloseTo(-0.2, 9);
    const second = (a: 0 | 1, b: 0 | 1): number =>
      nodes.reduce((sum, n, i) => sum + p[i]! * (n.at[a] - mean[a]!) * (n.at[b] - mean[b]!), 0);
    // The grid ends at two deviations, so its spread is a fixed share of the true one, the same along every axis.
    const share = (second(0, 0) + second(1, 1)) / (cov[0] + cov[2]);
    expect(share).toBeGreaterThan(0.6);
    expect(share).toBeLessThan(1.1);
    expect(second(0, 0)).toBeCloseTo(share * cov[0], 6);
    expect(second(0, 1)).toBeCloseTo(share * cov[1], 6);
    expect(second(1, 1)).toBeCloseTo(share * cov[2], 6);
  });
});

describe('what is told of a conductor', () => {
  const neutral: LightPosterior = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 3 });

  it('of nothing to read is every name alike', () => {
    const empty = {
      ...makeRibbon({ body: [0.4, 0.03, 0.03] }),
      length: 0,
      rgb: new Float32Array(0),
      usable: new Uint8Array(0),
    };
    const { insulation, covering, coveringConfidence } = nameInsulations([empty], neutral).readings[0]!;
    expect(insulation.candidates.map((c) => c.name).sort()).toEqual([...COLOR_NAMES].sort());
    expect(insulation.candidates.reduce((sum, c) => sum + c.probability, 0)).toBeCloseTo(1, 9);
    for (const { probability } of insulation.candidates) expect(probability).toBeCloseTo(1 / COLOR_NAMES.length, 12);
    expect([...insulation.set].sort()).toEqual([...COLOR_NAMES].sort());
    expect([covering, coveringConfidence]).toEqual(['insulated', 0.5]);
  });

  it('moves toward whichever name a network says, for each of the names', () => {
    const gray = makeRibbon({ body: [0.2, 0.19, 0.18], noise: 0.02 });
    const plain = nameInsulations([gray], neutral).readings[0]!.insulation;
    const share = (of: typeof plain, name: ColorName): number =>
      of.candidates.find((c) => c.name === name)?.probability ?? 0;
    for (const name of COLOR_NAMES) {
      const before = share(plain, name);
      if (before < 1e-4) continue;
      const said = Float32Array.from(COLOR_NAMES, (n) => Math.log(n === name ? 0.95 : 0.05 / (COLOR_NAMES.length - 1)));
      const after = nameInsulations([gray], neutral, { networkColor: [said] }).readings[0]!.insulation;
      expect(share(after, name)).toBeGreaterThan(before);
    }
    // Black is the first of the names: of a dim one that may be black or gray it is moved as well.
    const dim = makeRibbon({ body: [0.05, 0.05, 0.05] });
    const black = (p: number): number =>
      share(
        nameInsulations([dim], neutral, {
          networkColor: [
            Float32Array.from(COLOR_NAMES, (n) => Math.log(n === 'black' ? p : (1 - p) / (COLOR_NAMES.length - 1))),
          ],
        }).readings[0]!.insulation,
        'black',
      );
    expect(black(0.95)).toBeGreaterThan(black(0.01));
  });

  it('says of the light whether conductors told one lamp from two; once told, it is told', () => {
    const one = [makeRibbon({ body: [0.4, 0.03, 0.03] })];
    const { light } = nameInsulations(one, neutral);
    // One conductor cannot tell: what the parts of the picture said stands.
    expect(light.toldByConductors).toBe(false);
    expect(light.mixedLightDeg).toBe(3);
    const told = { ...neutral, toldByConductors: true, mixedLightDeg: 11 };
    expect(nameInsulations(one, told).light).toMatchObject({ toldByConductors: true, mixedLightDeg: 11 });
  });
});

describe('tape that was found', () => {
  const fine = makeFine({ body: [0.03, 0.03, 0.03] });
  const marked = (from: number, to: number, confidence: number) => ({
    mark: { from, to, confidence, cover: 0.7, cells: [] },
    body: ribbonBody(makeRibbon({ body: [0.02, 0.08, 0.4] }))!,
  });
  const opinion = (of: Partial<Record<ColorName, number>>): Opinion => ({
    names: Object.fromEntries(COLOR_NAMES.map((n) => [n, of[n] ?? 0])) as Record<ColorName, number>,
    bare: 0,
  });

  it('lies at the middle of its rows, with the names it may have by their shares, none below 2 in 100', () => {
    const [tape] = tapesOf(fine, [marked(60, 70, 0.8)], [opinion({ blue: 0.6, violet: 0.19, black: 0.01 })]);
    expect(tape!.at).toEqual(fine.centers[65]);
    expect(tape!.stretch).toEqual([60 / fine.length, 70 / fine.length]);
    expect(tape!.candidates!.map((c) => c.name)).toEqual(['blue', 'violet']);
    expect(tape!.candidates![0]!.probability).toBeCloseTo(0.75, 9);
    expect(tape!.name).toBe('blue');
    expect(tape!.confidence).toBeCloseTo(0.8 * 0.75, 9);
    expect(tape!.cover).toBe(0.7);
  });

  it('of no color at all is told without a number that is none', () => {
    const [tape] = tapesOf(fine, [marked(0, 9, 0.8)], [opinion({})]);
    expect(tape!.confidence).toBe(0);
    expect(tape!.candidates).toEqual([]);
  });
});

describe('how exactly a color is measured', () => {
  const plain = ribbonBody(makeRibbon({ body: [0.3, 0.2, 0.1] }))!;
  const body = (of: Partial<Body>): Body => ({ ...plain, scatter: [0.4, 0.1, 0.4], widthPx: 60, blurPx: 0, ...of });
  const spread = (of: Partial<Body>): number => measurementCov(body(of), 0.8, 1)[0];

  it('grows with the samples as one over their number, until neighbors add nothing new', () => {
    const floor = measurementCov(body({ scatter: [0, 0, 0], noise: 0 }), 0.8, 1)[0];
    const own = (count: number): number => spread({ count, noise: 0 }) - floor;
    expect(own(6) / own(24)).toBeCloseTo(4, 2);
    expect(own(12) / own(24)).toBeCloseTo(2, 2);
    expect(own(10_000)).toBeCloseTo(own(100_000), 9);
    expect(own(1)).toBeCloseTo(own(3), 9);
  });

  it('falls with blur, which makes neighbors one sample, and with all that spoils a photo', () => {
    expect(spread({ count: 30, blurPx: 2 })).toBeGreaterThan(spread({ count: 30, blurPx: 0 }));
    // A blur of one pixel shares a sample among twice as many.
    expect(spread({ count: 24, blurPx: 1 })).toBeCloseTo(spread({ count: 12, blurPx: 0 }), 6);
    expect(spread({ usable: 0.3 })).toBeGreaterThan(spread({ usable: 1 }));
    expect(spread({ agreement: 0.2 })).toBeGreaterThan(spread({ agreement: 0.9 }));
    expect(spread({ widthPx: 4 })).toBeGreaterThan(spread({ widthPx: 60 }));
    expect(spread({ noise: 0.05 })).toBeGreaterThan(spread({ noise: 0.001 }));
    // Twin: at quality 0 nothing of it counts.
    const best = (of: Partial<Body>): number => measurementCov(body(of), 0.8, 0)[0];
    expect(best({ usable: 0.3, noise: 0.05, blurPx: 3 })).toBe(best({}));
  });
});
