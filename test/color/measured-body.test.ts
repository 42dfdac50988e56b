import { beforeEach, describe, expect, it } from 'vitest';
import { type Body, bodyOf, touchedSample } from '../../src/color/ribbon/body';
import { hueSpreadEvidence } from '../../src/color/ribbon/green-yellow';
import { shineEvidence } from '../../src/color/ribbon/metal';
import { mainColor } from '../../src/color/ribbon/mode';
import { coreOf, coreSamples, quantile, type Sample, sampleOf } from '../../src/color/ribbon/samples';
import { makeRibbon, normal, seeded } from './make-ribbon';

const plain = makeRibbon({ body: [0.3, 0.3, 0.3] });
/** A color at several levels of light, as a shaded body shows it. */
const shaded = (rgb: readonly [number, number, number], levels: readonly number[]): Sample[] =>
  levels.map((v) => sampleOf(rgb[0] * v, rgb[1] * v, rgb[2] * v));
const even = (n: number): number[] => Array.from({ length: n }, (_, k) => 0.5 + (0.5 * k) / (n - 1));
const RED = [0.4, 0.03, 0.03] as const;
const WHITE = [0.7, 0.7, 0.7] as const;

describe('a sample', () => {
  it('has the luminance of its primaries (IEC 61966-2-1, 0.2126, 0.7152, 0.0722), and no color where they are equal', () => {
    expect(sampleOf(1, 0, 0).y).toBeCloseTo(0.2126, 4);
    expect(sampleOf(0, 1, 0).y).toBeCloseTo(0.7152, 4);
    expect(sampleOf(0, 0, 1).y).toBeCloseTo(0.0722, 4);
    const gray = sampleOf(0.4, 0.4, 0.4);
    expect(Math.hypot(gray.s, gray.t)).toBeLessThan(1e-3);
  });

  it('keeps its saturation where only the light differs', () => {
    const [light, shade] = shaded(RED, [1, 0.1]);
    expect(shade!.s).toBeCloseTo(light!.s, 9);
    expect(shade!.t).toBeCloseTo(light!.t, 9);
  });
});

describe('a quantile', () => {
  it('is the value that this share lies below, the ends at the ends, 0 of nothing', () => {
    const list = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    expect([0, 0.5, 0.95, 1].map((q) => quantile(list, q))).toEqual([1, 6, 10, 10]);
    expect(quantile([], 0.5)).toBe(0);
  });
});

describe('the part of a ribbon that is looked at', () => {
  it('is narrower the more blur there is for the width, never less than a quarter nor more than three', () => {
    expect(coreOf(4.9, 1)).toBe(0.25);
    expect(coreOf(40, 0.5)).toBe(0.75);
    expect(coreOf(14, 1)).toBeCloseTo(0.88 - (1.4 * 2) / 14, 12);
    expect(coreOf(14, 0.1)).toBe(coreOf(14, 0.5));
    expect(coreOf(6, 4)).toBe(0.3);
  });

  it('leaves out the rims and what is clipped, and counts what was looked at', () => {
    const usable = Uint8Array.from(plain.usable, (_, k) => (k % 14 === 6 ? 0 : 1));
    const { samples, looked } = coreSamples({ ...plain, usable }, 0.3);
    // 14 cells across, middle 6.5, reach 2.1: cells 5 to 8, one of which is clipped.
    expect(looked).toBe(30 * 4);
    expect(samples).toHaveLength(30 * 3);
  });

  it('is every other row of a long one', () => {
    const long = {
      ...plain,
      length: 120,
      rgb: new Float32Array(120 * 14 * 3),
      usable: new Uint8Array(120 * 14).fill(1),
    };
    expect(coreSamples(long, 0.3).looked).toBe(60 * 4);
  });
});

describe('the main color', () => {
  const random = seeded(5);
  const noisy = (rgb: readonly [number, number, number], n: number): Sample[] =>
    Array.from({ length: n }, () => {
      const v = 0.5 + 0.5 * random();
      const [r, g, b] = rgb.map((c) => Math.max(0, c * v + 0.004 * normal(random))) as [number, number, number];
      return sampleOf(r, g, b);
    });
  const red = noisy(RED, 70);
  const white = noisy(WHITE, 30);

  it('is that of most samples, wherever they stand, and all of those', () => {
    for (const samples of [
      [...red, ...white],
      [...white, ...red],
      [...white.slice(15), ...red, ...white.slice(0, 15)],
    ]) {
      const kept = new Set(mainColor(samples, 0.006));
      expect(red.filter((p) => kept.has(p)).length).toBeGreaterThan(66);
      expect(white.filter((p) => kept.has(p))).toEqual([]);
    }
  });

  it('is the touched one where a finger says so, though it has fewer samples', () => {
    const kept = new Set(mainColor([...red, ...white], 0.006, sampleOf(0.6, 0.6, 0.6)));
    expect(white.every((p) => kept.has(p))).toBe(true);
    expect(red.some((p) => kept.has(p))).toBe(false);
  });

  it('goes where the samples are densest from a start beside them', () => {
    // A ramp of saturation with most samples at its far end: the first start lies outside of one body of the peak.
    const mix = (k: number): Sample => sampleOf(0.4, 0.03 + 0.3 * k, 0.03 + 0.3 * k);
    const ramp = Array.from({ length: 24 }, (_, k) => mix(1 - k / 24));
    const peak = Array.from({ length: 60 }, () => mix(0));
    const kept = new Set(mainColor([...ramp, ...peak], 0.006));
    expect(peak.every((p) => kept.has(p))).toBe(true);
    expect(kept.has(ramp[0]!)).toBe(false);
  });

  it('is never empty: one sample is its own', () => {
    const [only] = shaded(RED, [0.5]);
    expect(mainColor([only!], 0.006)).toEqual([only]);
  });

  it('takes darker samples for one body more readily where the picture is noisy', () => {
    const dark = [sampleOf(0.012, 0.006, 0.006), ...Array.from({ length: 9 }, () => sampleOf(0.01, 0.01, 0.01))];
    expect(mainColor(dark, 0.05)).toHaveLength(10);
    expect(mainColor(dark, 0)).toHaveLength(9);
  });
});

/** Mean shift as its definition has it: every start walks by itself, every pair is measured in full. */
function plainMainColor(samples: readonly Sample[], noise: number): Sample[] {
  const place = (s: number, t: number, z: number) => {
    const relative = (Math.max(0.003, noise) * Math.sqrt(Math.max(0.02, 2 ** z) / 0.2)) / 2 ** z;
    return { s, t, z, chroma: 0.045 ** 2 + (0.6 * relative) ** 2, light: 2 ** 2 + (1.44 * relative) ** 2 };
  };
  type Place = ReturnType<typeof place>;
  const places = samples.map((p) => place(p.s, p.t, Math.log2(p.y + 1e-4)));
  const near = (p: Place, q: Place): boolean =>
    ((p.s - q.s) ** 2 + (p.t - q.t) ** 2) / Math.max(p.chroma, q.chroma) +
      (p.z - q.z) ** 2 / Math.max(p.light, q.light) <
    1;
  let best = { count: -1, at: places[0]! };
  for (let start = 0; start < 12; start++) {
    let at = places[Math.floor(((start + 0.5) / 12) * places.length)]!;
    let own: Place[] = [];
    for (let round = 0; round < 4; round++) {
      own = places.filter((p) => near(p, at));
      const mean = (of: (p: Place) => number): number => own.reduce((sum, p) => sum + of(p), 0) / own.length;
      at = place(
        mean((p) => p.s),
        mean((p) => p.t),
        mean((p) => p.z),
      );
    }
    if (own.length > best.count) best = { count: own.length, at };
  }
  return samples.filter((_, k) => near(places[k]!, best.at));
}

describe('the main color, no way walked twice', () => {
  const random = seeded(23);
  /** Samples of two colors that run into each other, in light and shade. */
  const blurred = (n: number, share: number): Sample[] =>
    Array.from({ length: n }, () => {
      const [light, mix] = [0.1 + 0.9 * random(), random() < share ? random() ** 3 : 1 - random() ** 3];
      const [r, g, b] = RED.map((c, k) => Math.max(0, light * (c + mix * (WHITE[k]! - c)) + 0.01 * normal(random)));
      return sampleOf(r!, g!, b!);
    });

  it('is that of every start by itself', () => {
    for (const share of [0.2, 0.4, 0.5, 0.6, 0.9])
      for (const n of [13, 60, 200]) {
        const samples = blurred(n, share);
        expect(mainColor(samples, 0.01)).toEqual(plainMainColor(samples, 0.01));
      }
  });

  it('twin: at another noise it is not', () => {
    const samples = blurred(200, 0.5);
    expect(mainColor(samples, 0.01)).not.toEqual(plainMainColor(samples, 0.05));
  });
});

describe('a measured body', () => {
  let samples: Sample[];
  let body: Body;
  beforeEach(() => {
    samples = shaded(RED, even(100));
    body = bodyOf(samples, 125, plain)!;
  });

  it('is the mean over the lit part, between the 30 % and the 85 % quantile of light', () => {
    const lit = samples.filter((_, k) => k >= 30 && k <= 85);
    expect(body.count).toBe(lit.length);
    for (const [c, key] of ['r', 'g', 'b'].entries()) {
      const mean = lit.reduce((sum, p) => sum + p[key as 'r' | 'g' | 'b'], 0) / lit.length;
      expect(body.rgb[c]).toBeCloseTo(mean, 9);
    }
  });

  it('says how much of it could be read and how much of that agrees', () => {
    expect(body.usable).toBeCloseTo(100 / 125, 12);
    expect(body.agreement).toBe(1);
    const strayed = bodyOf([...samples, ...shaded(WHITE, even(25))], 125, plain)!;
    expect(strayed.agreement).toBeCloseTo(0.8, 2);
    expect(strayed.usable).toBe(1);
  });

  it('knows gloss as stops from the 30 % to the 95 % quantile', () => {
    expect(body.gloss).toBeCloseTo(Math.log2((samples[95]!.y + 1e-4) / (samples[30]!.y + 1e-4)), 9);
    expect(
      bodyOf(
        shaded(
          RED,
          Array.from({ length: 40 }, () => 0.5),
        ),
        40,
        plain,
      )!.gloss,
    ).toBeCloseTo(0, 9);
  });

  it('tells the tint of its highlights: the lamp on plastic, its own color on metal (Shafer 1985)', () => {
    const lamp = shaded(WHITE, [1.2, 1.25, 1.3, 1.35, 1.4, 1.45, 1.5]);
    expect(bodyOf([...samples, ...lamp], 107, plain)!.highlightTint).toBeLessThan(0.2);
    expect(body.highlightTint).toBeCloseTo(1, 2);
  });

  it('leaves bright pale samples out of its color: a veil of gloss is no insulation', () => {
    const veil = Array.from({ length: 12 }, (_, k) => {
      const v = 1 + k / 40;
      return sampleOf(0.4 * v + 0.03, 0.03 * v + 0.03, 0.03 * v + 0.03);
    });
    const veiled = bodyOf([...samples, ...veil], 112, plain)!;
    expect(veiled.rgb[1] / veiled.rgb[0]).toBeCloseTo(body.rgb[1] / body.rgb[0], 3);
  });

  it('has no scatter where all is one color, and one along the way it varies', () => {
    expect(body.scatter.every((v) => Math.abs(v) < 1e-9)).toBe(true);
    const two = [...shaded(RED, even(50)), ...shaded([0.4, 0.05, 0.03], even(50))];
    const { scatter } = bodyOf(two, 100, plain)!;
    expect(scatter[0]).toBeGreaterThan(1e-5);
    expect(scatter[2]).toBeGreaterThan(1e-6);
    // Toward yellow, red falls and yellow grows: the two vary against each other.
    expect(scatter[1]).toBeLessThan(0);
    expect(scatter[1] ** 2).toBeLessThanOrEqual(scatter[0] * scatter[2] * (1 + 1e-6));
  });

  it('twin: of nothing there is none', () => {
    expect(bodyOf([], 10, plain)).toBeNull();
  });
});

describe('hues of a body', () => {
  it('are those of OKLab: red at 29, green at 142, blue at 264 degrees (Ottosson 2020, from memory)', () => {
    for (const [rgb, degrees] of [
      [[0.5, 0, 0], 29],
      [[0, 0.5, 0], 142],
      [[0, 0, 0.5], 264],
    ] as const) {
      const { hues } = bodyOf(shaded(rgb, even(9)), 9, makeRibbon({ body: rgb, noise: 0 }))!;
      for (const hue of [hues!.low, hues!.middle, hues!.high]) expect((hue + 360) % 360).toBeCloseTo(degrees, 0);
    }
  });

  it('rise from low to high, and are none where there is no color', () => {
    const { hues } = bodyOf(shaded(RED, even(9)), 9, makeRibbon({ body: RED, noise: 0.02 }))!;
    expect(hues!.low).toBeLessThan(hues!.middle);
    expect(hues!.middle).toBeLessThan(hues!.high);
    expect(bodyOf(shaded(WHITE, even(9)), 9, makeRibbon({ body: WHITE, noise: 0 }))!.hues).toBeNull();
  });
});

describe('the color under a finger', () => {
  it('is that of the middle pixels by light: a stray bright one and a stray dark one do not count', () => {
    const pixels = [...Array.from({ length: 8 }, () => [0.3, 0.1, 0.1]), [1, 1, 1], [0, 0, 0]].flat();
    const touched = touchedSample(Float32Array.from(pixels))!;
    expect(touched.r).toBeCloseTo(0.3, 6);
    expect(touched.g).toBeCloseTo(0.1, 6);
    expect(touchedSample(Float32Array.from([0.2, 0.3, 0.4]))!.b).toBeCloseTo(0.4, 6);
    expect(touchedSample(new Float32Array(0))).toBeNull();
  });
});

describe('what shine says of metal', () => {
  let body: Body;
  beforeEach(() => {
    body = bodyOf(shaded(RED, even(100)), 100, plain)!;
  });

  it('nothing of insulation; for tin gloss alone, for copper tint too, both bounded', () => {
    const at = (gloss: number, highlightTint: number) => ({ ...body, gloss, highlightTint });
    for (const surface of ['white', 'red', 'green-yellow'] as const) expect(shineEvidence(surface, at(3, 3))).toBe(0);
    expect(shineEvidence('tinned', at(0.9, 0))).toBe(0);
    expect(shineEvidence('tinned', at(0.9, 3))).toBe(0);
    expect(shineEvidence('tinned', at(1.5, 0))).toBeCloseTo(0.9, 12);
    expect(shineEvidence('tinned', at(9, 0))).toBe(1.5);
    expect(shineEvidence('tinned', at(-9, 0))).toBe(-1.5);
    expect(shineEvidence('copper', at(0.9, 0.85))).toBe(0);
    expect(shineEvidence('copper', at(0.9, 0.95))).toBeCloseTo(0.5, 12);
    expect(shineEvidence('copper', at(0.9, 9))).toBe(1);
    expect(shineEvidence('copper', at(0.9, 0))).toBe(-2.5);
  });
});

describe('what the spread of hues says of green-yellow', () => {
  let body: Body;
  beforeEach(() => {
    body = bodyOf(shaded(RED, even(100)), 100, plain)!;
  });
  const at = (hues: readonly [low: number, middle: number, high: number] | null, widthPx = 4, blurPx = 1, turns = 1) =>
    hueSpreadEvidence('green-yellow', {
      ...body,
      hues: hues && { low: hues[0], middle: hues[1], high: hues[2], turns },
      widthPx,
      blurPx,
    });

  it('nothing of any other surface', () => {
    const hues = { low: 90, middle: 140, high: 150, turns: 1 };
    expect(hueSpreadEvidence('green', { ...body, hues })).toBe(0);
    expect(hueSpreadEvidence('yellow', { ...body, hues })).toBe(0);
  });

  it('speaks for it where yellow reaches green or green yellow, more the farther, at most by 3', () => {
    expect(at([95, 100, 120])).toBe(3);
    expect(at([95, 100, 111.5])).toBeCloseTo((111.5 - 100 - 8) / 3, 9);
    expect(at([108, 140, 145])).toBeCloseTo((140 - 108 - 20) / 4, 9);
    expect(at([90, 150, 160])).toBe(3);
  });

  it('speaks the less the fewer lines take turns, and is silent where none does', () => {
    expect(at([95, 100, 120], 4, 1, 0.5)).toBe(3);
    expect(at([95, 100, 120], 4, 1, 0.25)).toBeCloseTo(1.5, 12);
    expect(at([95, 100, 120], 4, 1, 0)).toBe(0);
    expect(at([95, 100, 120], 30, 1, 0)).toBe(0);
  });

  it('speaks against it where all is one hue, the more the better a stripe could have been seen', () => {
    expect(at([138, 140, 142])).toBeLessThan(0);
    expect(at([138, 140, 142], 20)).toBeLessThan(at([138, 140, 142], 8));
    expect(at([28, 29, 30], 4)).toBe(-2);
    expect(at(null, 4)).toBe(-0);
    expect(at(null, 9)).toBeCloseTo(-3, 12);
    expect(at(null, 90)).toBe(-4);
    // Blur below half a pixel is none that can be told.
    expect(at(null, 4, 0.01)).toBe(at(null, 4, 0.5));
  });

  it('twin: two colors of which one is neither yellow nor green are none, whatever their turns', () => {
    // Blue that spreads to 260, red beside yellow, red beside green, green beside blue, yellow beside blue.
    for (const hues of [
      [200, 240, 260],
      [20, 100, 120],
      [25, 140, 150],
      [105, 150, 240],
      [95, 100, 250],
      [-130, 100, 130],
    ] as const)
      expect(at(hues)).toBe(-2);
  });

  it('twin: blue of one hue is none, and green that reaches blue is none either', () => {
    expect(at([238, 240, 242])).toBe(-2);
    expect(at([165, 172, 178])).toBeLessThan(0);
  });
});
