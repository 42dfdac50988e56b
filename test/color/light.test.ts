import { describe, expect, it } from 'vitest';
import { compareInsulations, estimateLight, huePicture, nameInsulations } from '../../src/color';
import { observe, observeScene, priorModes } from '../../src/color/light/estimate-light';
import { momentsOf, nodesOf, summarize } from '../../src/color/light/posterior';
import { angleDeg, grayWorld, type LogRatio, thumbOf, whole } from '../../src/color/light/statistics';
import { PALETTE_DATA } from '../../src/color/palette/palette-data';
import type { Raster } from '../../src/flow';
import { say } from '../../src/words';
import { COLOR_WORDS } from '../../src/words/en/color';
import { cases } from '../cases';
import constancy from '../published/constancy.json';
import munsell from '../published/munsell-subset.json';
import { makeRibbon, seeded } from './make-ribbon';

const encode = (v: number): number => 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

/** A wall of patches in the colors of the Munsell subset, some gray, lit evenly by a cast. */
function patches(cast: LogRatio, seed: number, neutralShare: number, gain = 0.7): Raster {
  const random = seeded(seed);
  const width = 240;
  const height = 160;
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  const light = [Math.exp(cast[0]), 1, Math.exp(cast[1])];
  const hexes = munsell.entries.flatMap((e) => (e.srgb_hex ? [e.srgb_hex] : []));
  for (let py = 0; py < 10; py++)
    for (let px = 0; px < 15; px++) {
      const hex = hexes[Math.floor(random() * hexes.length)]!;
      const gray = 0.05 + 0.85 * random();
      const plain = random() < neutralShare;
      const shade = 0.3 + 0.7 * random();
      for (let y = py * 16; y < py * 16 + 16; y++)
        for (let x = px * 16; x < px * 16 + 16; x++)
          for (let c = 0; c < 3; c++) {
            const v = Number.parseInt(hex.slice(1 + 2 * c, 3 + 2 * c), 16) / 255;
            const body = plain ? gray : v ** 2.2;
            data[(y * width + x) * 4 + c] = Math.round(encode(Math.min(1, body * shade * gain * light[c]!)));
          }
    }
  return { width, height, data };
}

describe('light from scene statistics', () => {
  it('is a distribution: node weights sum to 1, the mean is scaled to green, the error is positive', () => {
    const light = estimateLight(patches([0.05, -0.05], 1, 0.5));
    expect(nodesOf(light.modes).reduce((s, n) => s + Math.exp(n.logWeight), 0)).toBeCloseTo(1, 9);
    expect(light.mean[1]).toBe(1);
    expect(light.errorDeg).toBeGreaterThan(0);
    expect(light.basis).toBe('scene statistics');
  });
  it('moves toward a cast, and no further than it', () => {
    const warm = estimateLight(patches([0.3, -0.35], 3, 0.8));
    const cool = estimateLight(patches([-0.25, 0.3], 3, 0.8));
    expect(warm.mean[0]).toBeGreaterThan(1);
    expect(warm.mean[2]).toBeLessThan(1);
    expect(cool.mean[0]).toBeLessThan(1);
    expect(cool.mean[2]).toBeGreaterThan(1);
    expect(warm.mean[0]).toBeLessThan(Math.exp(0.3));
  });
  it('errs less than gray world on scenes of colored patches, in the mean and in the worst quarter', () => {
    const fused: number[] = [];
    const gray: number[] = [];
    for (let seed = 1; seed <= cases(40); seed++) {
      const random = seeded(seed * 7);
      const along = 0.18 * (random() - 0.5);
      const cast: LogRatio = [along, -along + 0.06 * (random() - 0.5)];
      const raster = patches(cast, seed, 0.25);
      const { mean } = estimateLight(raster);
      fused.push(angleDeg([Math.log(mean[0]), Math.log(mean[2])], cast));
      const thumb = thumbOf(raster);
      gray.push(angleDeg(grayWorld(thumb, whole(thumb))!, cast));
    }
    const mean = (v: number[]) => v.reduce((s, x) => s + x, 0) / v.length;
    const worst = (v: number[]) => mean([...v].sort((a, b) => b - a).slice(0, 10));
    expect(mean(fused)).toBeLessThan(mean(gray));
    expect(worst(fused)).toBeLessThan(worst(gray));
    // Published order of the estimators (Gehler-Shi reprocessed): shades of gray and gray edge beat gray world.
    const published = new Map(constancy.rows.map((r) => [r.method, r.values[0]!]));
    expect(published.get('Shades of grey')).toBeLessThan(published.get('Grey-world')!);
    expect(published.get('1st-order grey-edge')).toBeLessThan(published.get('Grey-world')!);
  });
  it('tells mixed light from even light', () => {
    const even = patches([0, 0], 5, 0.6);
    // Levels times (1.08, 1, 0.9) and (0.92, 1, 1.08): 15 degrees in linear light (gamma 2.2).
    const mixed: Raster = { ...even, data: new Uint8ClampedArray(even.data) };
    for (let y = 0; y < mixed.height; y++)
      for (let x = 0; x < mixed.width; x++) {
        const at = (y * mixed.width + x) * 4;
        const left = x < mixed.width / 2;
        mixed.data[at] = mixed.data[at]! * (left ? 1.08 : 0.92);
        mixed.data[at + 2] = mixed.data[at + 2]! * (left ? 0.9 : 1.08);
      }
    expect(estimateLight(mixed).mixedLightDeg).toBeGreaterThan(estimateLight(even).mixedLightDeg + 2);
  });
  it('a flash is known to be near daylight: what looks like a warm lamp is taken for colored surfaces', () => {
    const warm = patches([0.25, -0.4], 3, 0.5);
    const flash = estimateLight(warm, true);
    const plain = estimateLight(warm);
    expect(flash.flash).toBe(true);
    expect(angleDeg([Math.log(flash.mean[0]), Math.log(flash.mean[2])], [0, 0])).toBeLessThan(
      angleDeg([Math.log(plain.mean[0]), Math.log(plain.mean[2])], [0, 0]),
    );
    // Twin: a flash that stayed dark is no evidence, and neither is a file that says nothing.
    expect(estimateLight(warm, false)).toEqual(plain);
    expect(plain.flash).toBeUndefined();
    expect(priorModes(true).reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 9);
  });
  it('follows exposure: half the light, half the anchor, same color', () => {
    const bright = estimateLight(patches([0.1, -0.1], 2, 0.5, 0.8));
    const dim = estimateLight(patches([0.1, -0.1], 2, 0.5, 0.2));
    expect(dim.anchor / bright.anchor).toBeCloseTo(0.25, 1);
    expect(dim.mean[0]).toBeCloseTo(bright.mean[0], 1);
  });
  it('a black picture and a single pixel give the prior', () => {
    const black: Raster = { width: 40, height: 40, data: new Uint8ClampedArray(40 * 40 * 4) };
    const pixel: Raster = { width: 1, height: 1, data: new Uint8ClampedArray([200, 100, 50, 255]) };
    for (const raster of [black, pixel]) {
      const light = estimateLight(raster);
      expect(light.basis).toBe('assumed neutral');
      expect(light.mean[0]).toBeGreaterThan(0.9);
      expect(light.mean[0]).toBeLessThan(1.15);
    }
  });
});

const vague = summarize(priorModes(), { basis: 'scene statistics', anchor: 0.8, mixedLightDeg: 0 });
const paper = (light: readonly [number, number, number]) =>
  Float32Array.from({ length: 60 }, (_, k) => 0.6 * light[k % 3]!);

describe('a reference in the shot', () => {
  const warm = [1.35, 1, 0.6] as const;
  const underWarm = makeRibbon({ body: [0.55, 0.55, 0.55], light: [1.35, 1, 0.6] });
  it('white paper turns a yellowish conductor into a white one', () => {
    const without = nameInsulations([underWarm], vague);
    const referenced = nameInsulations([underWarm], vague, { references: [{ kind: 'white', rgb: paper(warm) }] });
    expect(referenced.readings[0]!.insulation.best).toBe('white');
    expect(referenced.light.basis).toBe('reference in the shot');
    expect(referenced.light.errorDeg).toBeLessThan(without.light.errorDeg / 2);
    const p = (r: typeof without) =>
      r.readings[0]!.insulation.candidates.find((c) => c.name === 'white')?.probability ?? 0;
    expect(p(referenced)).toBeGreaterThan(p(without));
  });
  it('a conductor known to be of a color pulls the light the same way', () => {
    const known = makeRibbon({ body: [0.55, 0.55, 0.55], light: [1.3, 1, 0.68], seed: 4 });
    const { light } = nameInsulations([], vague, {
      references: [{ kind: 'known color', name: 'white', rgb: known.rgb }],
    });
    expect(light.mean[0]).toBeGreaterThan(vague.mean[0]);
    expect(light.mean[2]).toBeLessThan(vague.mean[2] * 0.97);
  });
  it('twin: a paper of the wrong color leads astray, so it matters', () => {
    const wrong = nameInsulations([underWarm], vague, { references: [{ kind: 'white', rgb: paper([0.7, 1, 1.4]) }] });
    expect(wrong.readings[0]!.insulation.best).not.toBe('white');
  });
  it('taking a right reference away never makes names surer', () => {
    const bodies: [number, number, number][] = [
      [0.4, 0.03, 0.03],
      [0.02, 0.09, 0.3],
      [0.6, 0.45, 0.03],
      [0.55, 0.55, 0.55],
    ];
    for (const body of bodies) {
      const ribbon = makeRibbon({ body });
      const bare = nameInsulations([ribbon], vague).readings[0]!.insulation.confidence;
      const references = [{ kind: 'white' as const, rgb: paper([1, 1, 1]) }];
      const held = nameInsulations([ribbon], vague, { references }).readings[0]!.insulation.confidence;
      expect(bare).toBeLessThanOrEqual(held + 0.02);
    }
  });
});

describe('is this the same color as that?', () => {
  const light = vague;
  const body = (rgb: [number, number, number], seed: number, exposure = 1) =>
    nameInsulations([makeRibbon({ body: rgb, seed, exposure })], light).readings[0]!.body!;
  it('speaks for the same color, also in shade, and against another', () => {
    const red = body([0.4, 0.03, 0.03], 1);
    expect(compareInsulations(red, body([0.4, 0.03, 0.03], 2, 0.4), light).log10Ratio).toBeGreaterThan(0.5);
    expect(compareInsulations(red, body([0.02, 0.09, 0.3], 3), light).log10Ratio).toBeLessThan(-1);
  });
  it('is symmetric', () => {
    const x = body([0.4, 0.03, 0.03], 1);
    const y = body([0.5, 0.1, 0.02], 2);
    expect(compareInsulations(x, y, light).log10Ratio).toBeCloseTo(compareInsulations(y, x, light).log10Ratio, 9);
  });
});

describe('scene statistics that fail', () => {
  /** Prior of white-balanced photos after estimators said `at`. */
  const off = (at: LogRatio): number => angleDeg(momentsOf(observeScene(priorModes(), at)).mean, [0, 0]);
  it('are believed the less the further they are from what white balance leaves over', () => {
    // Along the daylight locus, to orange and to blue: about 10 and 30 degrees.
    for (const sign of [1, -1]) {
      const near: LogRatio = [sign * 0.2, sign * -0.2];
      const far: LogRatio = [sign * 0.65, sign * -0.65];
      expect(off(near) / angleDeg(near, [0, 0])).toBeLessThan(0.35);
      expect(off(far) / angleDeg(far, [0, 0])).toBeLessThan(0.35);
    }
  });
  it('twin: taken as one Gaussian they pull the light to a lamp that is not there', () => {
    const far: LogRatio = [0.65, -0.65];
    const single = observe(priorModes(), far, [0.075, -0.03, 0.095]);
    expect(angleDeg(momentsOf(single).mean, [0, 0])).toBeGreaterThan(off(far) + 2);
  });
  it('leave weights that sum to 1 and a spread that is no narrower than that of one lamp', () => {
    for (const at of [
      [0, 0],
      [0.4, -0.5],
      [-0.3, 0.6],
    ] as LogRatio[]) {
      const modes = observeScene(priorModes(), at);
      expect(modes.reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 2);
      const { cov } = momentsOf(modes);
      expect(cov[0] * cov[2] - cov[1] * cov[1]).toBeGreaterThan(0);
    }
  });
});

describe('the picture of the hue plane', () => {
  it('puts a red reading among the reds and widens with the light', () => {
    const { readings, light } = nameInsulations([makeRibbon({ body: [0.4, 0.03, 0.03] })], vague);
    const picture = huePicture(readings[0]!.body!, light);
    const nearest = [...picture.names].sort(
      (p, q) =>
        Math.hypot(p.x - picture.reading.x, p.y - picture.reading.y) -
        Math.hypot(q.x - picture.reading.x, q.y - picture.reading.y),
    )[0]!;
    expect(nearest.name).toBe('red');
    const sure = huePicture(readings[0]!.body!, {
      ...light,
      modes: [{ weight: 1, mean: [0, 0], cov: [1e-5, 0, 1e-5] }],
    });
    expect(sure.reading.long).toBeLessThan(picture.reading.long);
  });
  it('draws each name as the ellipse with the mean and covariance of its parts: checked by drawing from them', () => {
    const { readings, light } = nameInsulations([makeRibbon({ body: [0.4, 0.03, 0.03] })], vague);
    for (const { name, x, y, long, short, angle } of huePicture(readings[0]!.body!, light).names) {
      const { parts } = PALETTE_DATA[name];
      // Two points on each axis of each part have its mean and covariance: the mixture's follow by plain averaging.
      const points = parts.flatMap(([weight, mx, my, , xx, xy, , yy]) => {
        const [a, b, c] = [Math.sqrt(xx), xy / Math.sqrt(xx), Math.sqrt(Math.max(0, yy - (xy * xy) / xx))];
        return [-1, 1].flatMap((i) =>
          [-1, 1].map((j) => ({ weight: weight / 4, x: mx + i * a, y: my + i * b + j * c })),
        );
      });
      const total = points.reduce((sum, q) => sum + q.weight, 0);
      const mean = (of: (q: { x: number; y: number }) => number): number =>
        points.reduce((sum, q) => sum + q.weight * of(q), 0) / total;
      const [px, py] = [mean((q) => q.x), mean((q) => q.y)];
      expect([x, y]).toEqual([expect.closeTo(px, 4), expect.closeTo(py, 4)]);
      const along = (turn: number): number =>
        mean((q) => ((q.x - px) * Math.cos(turn) + (q.y - py) * Math.sin(turn)) ** 2);
      // 95 % of a plane normal distribution lie within sqrt(5.991) standard deviations (chi-square, two degrees).
      expect(long).toBeCloseTo(Math.sqrt(5.991 * along(angle)), 3);
      expect(short).toBeCloseTo(Math.sqrt(5.991 * along(angle + Math.PI / 2)), 3);
    }
  });
  it('reaches as far as every region does, and no further; twin: the middles and short axes alone would cut some off', () => {
    const { readings, light } = nameInsulations([makeRibbon({ body: [0.4, 0.03, 0.03] })], vague);
    const { reading, names, extent } = huePicture(readings[0]!.body!, light);
    const rims = [reading, ...names].flatMap((e) =>
      Array.from({ length: 360 }, (_, degree) => {
        const at = (degree * Math.PI) / 180;
        const [p, q] = [e.long * Math.cos(at), e.short * Math.sin(at)];
        const x = e.x + p * Math.cos(e.angle) - q * Math.sin(e.angle);
        const y = e.y + p * Math.sin(e.angle) + q * Math.cos(e.angle);
        return Math.max(Math.abs(x), Math.abs(y));
      }),
    );
    expect(Math.max(...rims)).toBeLessThanOrEqual(extent + 1e-9);
    expect(Math.max(...rims)).toBeCloseTo(extent, 3);
    const short = Math.max(...[reading, ...names].map((e) => Math.max(Math.abs(e.x), Math.abs(e.y)) + e.short));
    expect(Math.max(...rims)).toBeGreaterThan(short);
  });
});

describe('words', () => {
  it('every doubt has a sentence without blanks left open', () => {
    const doubtful = nameInsulations(
      [
        makeRibbon({ body: [0.01, 0.01, 0.012], exposure: 0.2, widthPx: 3 }),
        makeRibbon({ body: [0.3, 0.1, 0.03], exposure: 4, blurPx: 6 }),
        makeRibbon({ body: [0.3, 0.28, 0.25], noise: 0.05 }),
      ],
      { ...vague, errorDeg: 8, mixedLightDeg: 15 },
    ).readings.flatMap((r) => r.insulation.doubts);
    expect(doubtful.length).toBeGreaterThan(3);
    for (const doubt of doubtful) {
      expect(Object.keys(COLOR_WORDS)).toContain(doubt.code);
      expect(say(doubt)).not.toMatch(/[{}]/);
    }
  });
});
